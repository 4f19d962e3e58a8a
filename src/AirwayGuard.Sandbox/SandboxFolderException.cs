namespace AirwayGuard.Sandbox;

/// <summary>The folder of the sandbox holds something that cannot be opened as its database; nothing was changed.</summary>
public sealed class SandboxFolderException : Exception
{
    /// <summary>Why, in a sentence without a path.</summary>
    public SandboxFolderException(string message, Exception? innerException) : base(message, innerException)
    {
    }

    /// <summary>Why, in a sentence without a path.</summary>
    public SandboxFolderException(string message) : this(message, innerException: null)
    {
    }

    /// <summary>Without a reason.</summary>
    public SandboxFolderException() : this("The folder cannot be used.")
    {
    }
}

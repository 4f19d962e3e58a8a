namespace AirwayGuard.Sandbox;

/// <summary>
/// An interaction the server refuses, with the HTTP status and the issue code (http://hl7.org/fhir/issue-type) to say so.
/// The message names elements and parameters, never their content.
/// </summary>
public sealed class SandboxRefusalException : Exception
{
    /// <summary>A refusal with its kind, status, issue code and reason.</summary>
    public SandboxRefusalException(SandboxFault fault, int status, string issueCode, string message, string? expression = null) : base(message)
    {
        Fault = fault;
        Status = status;
        IssueCode = issueCode;
        Expression = expression;
    }

    /// <summary>A refusal for malformed content.</summary>
    public SandboxRefusalException(string message, Exception? innerException) : base(message, innerException)
    {
        Status = 400;
        IssueCode = "structure";
    }

    /// <summary>A refusal for malformed content.</summary>
    public SandboxRefusalException(string message) : this(message, innerException: null)
    {
    }

    /// <summary>A refusal for malformed content, without detail.</summary>
    public SandboxRefusalException() : this("The request is malformed.")
    {
    }

    /// <summary>Kind of what was wrong.</summary>
    public SandboxFault Fault { get; }

    /// <summary>HTTP status of the answer.</summary>
    public int Status { get; }

    /// <summary>Code of the OperationOutcome's issue.</summary>
    public string IssueCode { get; }

    /// <summary>Path of the element concerned, when one is.</summary>
    public string? Expression { get; }

    /// <summary>Code by which the FHIR library names what was wrong, when it found it.</summary>
    public string? LibraryCode { get; init; }

    /// <summary>Methods that would be allowed, for a 405.</summary>
    public string? Allow { get; init; }
}

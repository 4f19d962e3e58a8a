namespace AirwayGuard.Sandbox;

/// <summary>What whoever runs the sandbox says of a kind of fault.</summary>
/// <param name="Code">A stable code to look it up by.</param>
/// <param name="Title">What is wrong, in a few words.</param>
/// <param name="Advice">What to do about it, in a sentence.</param>
public sealed record SandboxWords(string Code, string Title, string Advice);

using Microsoft.Extensions.Options;

namespace AirwayGuard.Sandbox;

/// <summary>Checks the ranges that the options state.</summary>
[OptionsValidator]
internal sealed partial class SandboxOptionsValidator : IValidateOptions<SandboxOptions>;

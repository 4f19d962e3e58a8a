namespace AirwayGuard.Core.Suctioning;

/// <summary>What a patient's rows add up to: airways, passes, sessions, settings and orders. Reused from judgement to judgement.</summary>
public sealed class Care
{
}

namespace AirwayGuard.Core.Judging;

/// <summary>Takes verdicts as they come.</summary>
public interface IVerdictSink
{
    void Accept(in Verdict verdict);
}

using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Reading;

/// <summary>Collects the faults of one document, at most <see cref="Most"/>, so that a hostile one cannot fill memory with them.</summary>
internal sealed class Faults(string file)
{
    public const int Most = 1000;

    private readonly List<RuleSetFault> _faults = [];

    public int Count => _faults.Count;

    public bool Any => _faults.Count > 0;

    public bool IsFull => _faults.Count > Most;

    public void Add(DiagnosticCode code, Place at, string what, string? allowed = null)
    {
        if (_faults.Count < Most)
        {
            _faults.Add(new RuleSetFault(code, file, at.Line, at.Column, what, allowed ?? code.Advice));
        }
        else if (_faults.Count == Most)
        {
            var full = Codes.RuleSetTooManyFaults;
            _faults.Add(new RuleSetFault(full, file, at.Line, at.Column, $"There are more than {Words.Number(Most)} faults.", full.Advice));
        }
    }

    public IReadOnlyList<RuleSetFault> InOrder() =>
        [.. _faults.OrderBy(fault => fault.Line).ThenBy(fault => fault.Column).ThenBy(fault => fault.Code.Id, StringComparer.Ordinal)];
}

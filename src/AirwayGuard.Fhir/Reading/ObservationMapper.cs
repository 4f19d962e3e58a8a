using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Turns a row into facts and links. The one place where that is decided, whichever front end filled the row.</summary>
internal static class ObservationMapper
{
    public static void Map(ObservationRow row, Scribe scribe)
    {
        scribe.IsAbout("Observation"u8, row[row.Id]);
        if (!row.IdentifierValue.IsEmpty)
        {
            scribe.Into.Identifier = row.Text(row.IdentifierSystem) + "|" + row.Text(row.IdentifierValue);
        }

        var isMapped = IsAnyMapped(row, scribe);
        if (row[row.Status].SequenceEqual("entered-in-error"u8))
        {
            if (isMapped)
            {
                scribe.Problem(Codes.EnteredInError, "The row is entered in error.");
            }

            return;
        }

        var frame = new Frame { About = scribe.Target(row[row.Subject], "Patient"u8) };
        if (frame.About.Kind is not (EntityKind.Patient or EntityKind.Device or EntityKind.Place))
        {
            scribe.Unreadable(Codes.NoSubject, "The row names no patient, device or location by a literal reference.");
            return;
        }

        if (row.HasModifier || row.IsTestData || !IsUsable(row[row.Status]) || HasValueAgainstStatus(row, scribe))
        {
            TellWhyNotUsed(row, scribe, isMapped);
            return;
        }

        if (isMapped && (!TryEffective(row, scribe, ref frame) || !AddFacts(row, scribe, ref frame)))
        {
            return;
        }

        TellUnknownCodes(row, scribe);
        if (!isMapped || row.Values.Count > 1)
        {
            NotMapped.Note(row, scribe);
        }

        if (row.HasMember.Count > 0)
        {
            scribe.Link(LinkKind.PanelOf, scribe.Self, scribe.Target(row[row.Subject], "Patient"u8) is { Kind: EntityKind.Patient } patient ? patient : default);
        }

        foreach (var member in row.HasMember)
        {
            scribe.Link(LinkKind.MemberOf, scribe.Target(row[member], "Observation"u8), scribe.Self);
        }
    }

    private static bool IsAnyMapped(ObservationRow row, Scribe scribe)
    {
        foreach (ref readonly var value in CollectionsMarshal.AsSpan(row.Values))
        {
            if (RowMeaning.TryFind(row, value.Code, scribe.Map, out _, out _, out _))
            {
                return true;
            }
        }

        return false;
    }

    private static void TellUnknownCodes(ObservationRow row, Scribe scribe)
    {
        foreach (ref readonly var value in CollectionsMarshal.AsSpan(row.Values))
        {
            if (RowMeaning.HasUnknown(row, value.Code, scribe.Map))
            {
                var path = value.Ordinal == 0 ? "code" : string.Create(CultureInfo.InvariantCulture, $"component[{value.Ordinal - 1}].code");
                RowMeaning.TellUnknown(row, value.Code, path, scribe);
            }
        }
    }

    // unknown: nobody vouches for the value.
    private static bool IsUsable(ReadOnlySpan<byte> status) =>
        status.SequenceEqual("final"u8) || status.SequenceEqual("preliminary"u8) || status.SequenceEqual("amended"u8)
        || status.SequenceEqual("corrected"u8) || status.SequenceEqual("registered"u8);

    // R4: a registered row has no result yet, and the measurement of a cancelled one was not started or not completed.
    private static bool HasValueAgainstStatus(ObservationRow row, Scribe scribe)
    {
        if (!row[row.Status].SequenceEqual("registered"u8) && !row[row.Status].SequenceEqual("cancelled"u8))
        {
            return false;
        }

        foreach (ref readonly var value in CollectionsMarshal.AsSpan(row.Values))
        {
            if (value.Kind != ChartedKind.None && RowMeaning.TryFind(row, value.Code, scribe.Map, out _, out _, out _))
            {
                return true;
            }
        }

        return false;
    }

    private static void TellWhyNotUsed(ObservationRow row, Scribe scribe, bool isMapped)
    {
        if (!isMapped)
        {
            return;
        }

        if (row.IsTestData)
        {
            scribe.Problem(Codes.TestData, "The row carries the security label HTEST.");
        }
        else if (row.HasModifier)
        {
            scribe.Problem(Codes.ModifierUnknown, "The row carries a modifier extension.");
        }
        else if (HasValueAgainstStatus(row, scribe))
        {
            scribe.Problem(Codes.ValueAgainstStatus, "The row has a value, and its status says that there is none.");
        }
        else if (!row[row.Status].SequenceEqual("cancelled"u8))
        {
            scribe.Problem(Codes.StatusUnknown, "The row has no status, or none that says its value holds.");
        }
    }

    private static bool TryEffective(ObservationRow row, Scribe scribe, ref Frame frame)
    {
        if (row.Effective is EffectiveForm.None or EffectiveForm.Other || row.From.IsEmpty)
        {
            scribe.Unreadable(Codes.NoTime, "The row has no time it is about, or one without a start.");
            return false;
        }

        if (!EffectiveTime.TryRead(row[row.From], "effective", scribe, out frame.From, out frame.OffsetMinutes))
        {
            return false;
        }

        frame.To = frame.From;
        if (row.Effective == EffectiveForm.Period)
        {
            frame.To = long.MaxValue;
            if (!row.To.IsEmpty && !EffectiveTime.TryRead(row[row.To], "effective", scribe, out frame.To, out _))
            {
                return false;
            }

            if (frame.To < frame.From)
            {
                scribe.Unreadable(Codes.NoTime, "The row's period ends before it starts.");
                return false;
            }
        }

        return true;
    }

    private static bool AddFacts(ObservationRow row, Scribe scribe, ref Frame frame)
    {
        frame.Encounter = Only(scribe.Target(row[row.Encounter], "Encounter"u8), EntityKind.Encounter);
        frame.Device = scribe.Target(row[row.Device], "Device"u8);
        frame.Device = frame.Device.Kind is EntityKind.Device or EntityKind.Metric ? frame.Device : default;
        foreach (var part in row.PartOf)
        {
            var act = Only(scribe.Target(row[part], "Procedure"u8), EntityKind.Act);
            frame.Act = frame.Act.IsNone ? act : frame.Act;
            scribe.Link(LinkKind.PartOf, scribe.Self, act);
        }

        var isNamedWith = false;
        foreach (ref readonly var value in CollectionsMarshal.AsSpan(row.Values))
        {
            if (RowMeaning.TryFind(row, value.Code, scribe.Map, out var mapping, out var coding, out var other))
            {
                if (value.HasModifier)
                {
                    scribe.Problem(Codes.ModifierUnknown, "A component carries a modifier extension.");
                    continue;
                }

                frame.Group = Group(row, scribe, frame, mapping.PassNumber);
                if (other is { } another)
                {
                    AddUnclear(scribe, frame, value, mapping.Concept, another);
                }
                else
                {
                    AddFact(row, scribe, frame, value, mapping, coding);
                }

                isNamedWith |= mapping.Concept == Concepts.SuctionPass || IsOfRegulator(mapping.Concept);
            }
        }

        foreach (var focus in row.Focus)
        {
            scribe.Link(LinkKind.FocusOn, scribe.Self, scribe.Target(row[focus], "Device"u8));
        }

        if (isNamedWith && frame.About.Kind == EntityKind.Patient)
        {
            // An instant must hold at itself, and links hold up to their end.
            scribe.Link(LinkKind.NamedWith, frame.Device, frame.About, frame.From, frame.To == frame.From ? frame.To + 1 : frame.To);
        }

        return true;
    }

    // What it is about nobody can tell; where it may have been a setting, that there was one does not go unsaid.
    private static void AddUnclear(Scribe scribe, in Frame frame, in ChartedValue value, Concept one, Concept other)
    {
        scribe.Problem(Codes.CodingsDiffer, $"The codings of {(value.Ordinal == 0 ? "the row" : "a component")} mean {one.Code} and {other.Code}.");
        if (ValueReader.MakesASetting(one) || ValueReader.MakesASetting(other))
        {
            scribe.Fact(frame, value.Ordinal, ValueReader.MakesASetting(one) ? one : other, FactValue.Unreadable);
        }
    }

    // A panel holds its values in what it groups, and a row that is registered has none yet.
    private static bool HasNoValueYet(ObservationRow row, in ChartedValue value) =>
        value is { Kind: ChartedKind.None, IsAbsent: false }
        && (row[row.Status].SequenceEqual("registered"u8) || (value.Ordinal == 0 && (row.Values.Count > 1 || row.HasMember.Count > 0)));

    private static void AddFact(
        ObservationRow row, Scribe scribe, in Frame frame, in ChartedValue value, in Terminology.RowMapping mapping, in ChartedCoding coding)
    {
        var rowCode = value.Kind is ChartedKind.Quantity or ChartedKind.Integer or ChartedKind.String or ChartedKind.Concept
            ? RowMeaning.CodeOf(row, coding, scribe).Key : 0;
        var read = ValueReader.Read(row, value, mapping, scribe.Map, rowCode);
        if (read.Problem == Codes.ValueMissing && HasNoValueYet(row, value))
        {
            return;
        }

        if (read.Problem is not null)
        {
            scribe.Problem(read.Problem, read.Why);
        }

        if (read.HasFact)
        {
            var marks = read.Marks
                | (mapping.IsSetting ? FactMarks.Setting : FactMarks.None)
                | (mapping.IsInexact ? FactMarks.Inexact : FactMarks.None);
            scribe.Facts(frame, value.Ordinal, mapping.Concept, read, marks, row.Values.Count);
            if (mapping.IsInexact && mapping.Concept == Concepts.TubeInnerDiameter && read.Value.IsNumber)
            {
                scribe.Problem(Codes.MappedInexact, "The row's code does not say whether the diameter is the inner one.");
            }
        }
    }

    private static bool IsOfRegulator(Concept concept) =>
        concept == Concepts.VacuumPressure || concept == Concepts.VacuumSet || concept == Concepts.VacuumReadingMethod
        || concept == Concepts.RegulatorMode || concept == Concepts.SuctionUse || concept == Concepts.FullLineVacuum || concept == Concepts.CalibratedOn;

    /// <summary>The grouping key: the prefix of the row's identifier, else its order with the instant.</summary>
    private static Entity Group(ObservationRow row, Scribe scribe, in Frame frame, byte passNumber)
    {
        Span<byte> key = stackalloc byte[ReferenceName.Longest * 2];
        var length = GroupKey.PrefixLength(row[row.IdentifierValue]);
        if (length > 0 && length + row.IdentifierSystem.Length + 16 <= key.Length)
        {
            row[row.IdentifierSystem].CopyTo(key);
            key[row.IdentifierSystem.Length] = (byte)'|';
            row[row.IdentifierValue][..length].CopyTo(key[(row.IdentifierSystem.Length + 1)..]);
            length += row.IdentifierSystem.Length + 1;
        }
        else
        {
            length = 0;
            Span<byte> scratch = stackalloc byte[ReferenceName.Longest];
            if (row.BasedOn.Count > 0 && ReferenceName.TryRead(row[row.BasedOn[0]], "ServiceRequest"u8, scratch, out _, out var name))
            {
                name.CopyTo(key);
                length = name.Length;
            }
            else if (passNumber > 0)
            {
                length = Encoding.UTF8.GetBytes("pass", key);
            }

            if (length > 0)
            {
                key[length++] = (byte)'@';
                frame.From.TryFormat(key[length..], out var digits, default, CultureInfo.InvariantCulture);
                length += digits;
            }
        }

        if (passNumber > 0)
        {
            key[length++] = (byte)'#';
            passNumber.TryFormat(key[length..], out var digits, default, CultureInfo.InvariantCulture);
            length += digits;
        }

        return length == 0 ? default : scribe.Intern(EntityKind.GroupKey, key[..length]);
    }

    private static Entity Only(Entity entity, EntityKind kind) => entity.Kind == kind ? entity : default;
}

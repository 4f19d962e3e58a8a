using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Reading;

/// <summary>How often an order asks for suction, and whether by the clock or as needed.</summary>
internal static class OrderTimingReader
{
    public static void Read(DataType? occurrence, DataType? asNeeded, in Frame frame, Scribe scribe)
    {
        bool? needed = asNeeded switch
        {
            FhirBoolean mark => Raw.Truth(mark),
            CodeableConcept => true,
            _ => null,
        };
        if (needed is { } says)
        {
            scribe.Fact(frame, 0, Concepts.OrderAsNeeded, says ? FactValue.Yes : FactValue.No);
        }

        var isTimed = false;
        if (occurrence is Timing { ModifierExtension.Count: > 0 })
        {
            scribe.Problem(Codes.ModifierUnknown, "The order's timing carries a modifier extension.");
        }
        else if (occurrence is Timing timing)
        {
            isTimed = TryHours(timing, out var hours);
            if (isTimed && hours > 0m && FactValue.TryNumber(hours, Unit.Hour, out var interval))
            {
                scribe.Fact(frame, 0, Concepts.OrderInterval, interval);
            }
            else if (!isTimed && string.IsNullOrWhiteSpace(Raw.Text(timing.Code?.TextElement)))
            {
                scribe.Problem(Codes.TimingUnread, "The order's timing gives no interval that can be read.");
            }
        }

        // As in R4's Dosage, as needed beside a timing means at most that often.
        if (needed == true || isTimed)
        {
            scribe.Fact(frame, 0, Concepts.OrderByClock, needed == true ? FactValue.No : FactValue.Yes);
        }
    }

    /// <summary>
    /// One time is a time at which suction falls due, where nothing else is said of when: beside an interval or a need, coded or in words, charts
    /// write there when the order begins. Read behind all that may say so.
    /// </summary>
    public static void ReadMoment(DataType? occurrence, in Frame frame, Scribe scribe)
    {
        if (occurrence is FhirDateTime moment && !string.IsNullOrWhiteSpace(Raw.Text(moment)) && !SaysWhen(scribe.Into))
        {
            scribe.Fact(frame, 0, Concepts.OrderByClock, FactValue.Yes);
        }
    }

    /// <summary>Something was read of when suction is asked for.</summary>
    public static bool SaysWhen(Core.Ports.Reading read) =>
        read.Facts.Exists(static fact => fact.Concept == Concepts.OrderByClock || fact.Concept == Concepts.OrderInterval || fact.Concept == Concepts.OrderAsNeeded);

    /// <summary>It says how often, or when, without its text.</summary>
    public static bool IsStructured(Timing timing) => TryHours(timing, out _);

    /// <summary>Hours between two times; the shorter end of a range; 0 where times are named one by one.</summary>
    private static bool TryHours(Timing timing, out decimal hours)
    {
        var repeat = timing.Repeat;
        hours = 0m;
        var given = repeat?.FrequencyMaxElement ?? repeat?.FrequencyElement;
        var frequency = Whole(given);
        if (given is not null && frequency is null)
        {
            // How often is said and cannot be read: once would be a guess.
            return false;
        }

        if (repeat is not null && Raw.Number(repeat.PeriodElement) is { } period and > 0m and < 1_000_000m && TryUnitHours(Raw.Text(repeat.PeriodUnitElement), out var unit))
        {
            // R4: a period without a frequency is once in it.
            hours = Math.Round(period * unit / (frequency ?? 1), 6).Normalised();
            return hours > 0m;
        }

        if (repeat?.TimeOfDayElement.Count is > 0 and var times)
        {
            hours = Math.Round(24m / times, 6).Normalised();
            return true;
        }

        hours = timing.Code?.Coding.Select(coding => OfCode(Raw.Text(coding.CodeElement))).FirstOrDefault(found => found > 0m) ?? 0m;
        return hours > 0m || timing.EventElement.Count > 0;
    }

    private static int? Whole(PrimitiveType? number) => Raw.Number(number) is { } value and >= 1m and < 1_000_000m && value == Math.Truncate(value) ? (int)value : null;

    private static bool TryUnitHours(string? unit, out decimal hours)
    {
        hours = unit switch
        {
            "s" => 1m / 3600m,
            "min" => 1m / 60m,
            "h" => 1m,
            "d" => 24m,
            "wk" => 168m,
            _ => 0m,
        };
        return hours != 0m;
    }

    // HL7 v3 GTSAbbreviation, as R4's timing-abbreviation value set lists it.
    private static decimal OfCode(string? code) => code switch
    {
        "BID" => 12m,
        "TID" => 8m,
        "QID" => 6m,
        "QD" or "AM" or "PM" or "BED" => 24m,
        "QOD" => 48m,
        "WK" => 168m,
        "Q1H" => 1m,
        "Q2H" => 2m,
        "Q3H" => 3m,
        "Q4H" => 4m,
        "Q6H" => 6m,
        "Q8H" => 8m,
        _ => 0m,
    };

    private static decimal Normalised(this decimal number) => number / 1.0000000000000000000000000000m;
}

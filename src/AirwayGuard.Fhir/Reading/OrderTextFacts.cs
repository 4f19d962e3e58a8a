using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Writes down what an order's texts say. Coded timing goes before text; vacuum and sizes stand beside those that are coded.</summary>
internal static class OrderTextFacts
{
    public static void Add(OrderTexts texts, in Frame frame, Scribe scribe)
    {
        var read = texts.Read();
        var isTimed = OrderTimingReader.SaysWhen(scribe.Into);
        for (var i = 0; i < Math.Min(read.Parts.Count, TextOrdinal.MostParts); i++)
        {
            AddPart(read.Parts[i], i, isTimed, frame, scribe);
        }

        if (texts.Untouched(read).Any() || read.Unread.Count > 0 || read.Parts.Count > TextOrdinal.MostParts)
        {
            scribe.Fact(frame, TextOrdinal.OfUnread(0), Concepts.OrderUnread, FactValue.Text);
        }

        foreach (var form in read.Forms)
        {
            scribe.Problem(Codes.ErrorProneForm, string.Create(CultureInfo.InvariantCulture, $"At {texts.ElementOf(form.Span)} stands {Words(form.Kind)}; it was read as meant."));
        }
    }

    /// <summary>Whether the order's coded timing and that of its text are two.</summary>
    public static bool TimingDiffers(OrderPart part, Core.Ports.Reading read) =>
        part.DoNotSuction == true || Differs(part.ByClock, read, Concepts.OrderByClock) || Differs(part.AsNeeded, read, Concepts.OrderAsNeeded)
        || (part.EveryHours is { } hours && read.Facts.Exists(fact => fact.Concept == Concepts.OrderInterval && fact.Id.Ordinal < TextOrdinal.First && fact.Value.Amount != hours));

    private static bool Differs(bool? text, Core.Ports.Reading read, Concept concept) => text is { } says
        && read.Facts.Exists(fact => fact.Concept == concept && fact.Id.Ordinal < TextOrdinal.First && fact.Value.Kind == (says ? ValueKind.No : ValueKind.Yes));

    private static void AddPart(OrderPart part, int index, bool isTimed, Frame frame, Scribe scribe)
    {
        AddNumber(part.VacuumLow, part.VacuumUnit, Concepts.OrderVacuumLow, OrderField.Vacuum);
        AddNumber(part.VacuumHigh, part.VacuumUnit, Concepts.OrderVacuumHigh, OrderField.Vacuum, part.VacuumExclusive ? Comparator.Below : Comparator.Exactly);
        AddNumber(part.CatheterFr, Unit.French, Concepts.CatheterSize, OrderField.Catheter);
        AddNumber(part.DepthCentimetres, Unit.Centimetre, Concepts.InsertionDepth, OrderField.Depth);
        AddWord(part.System, Concepts.SuctionSystem, OrderField.System);
        AddWord(part.DepthWord, part.DepthIsConditional ? Concepts.OrderUnderCondition : Concepts.DepthTechnique, OrderField.Depth);

        AddSaline(part, index, frame, scribe);
        AddOxygen(part, index, frame, scribe);
        if (!isTimed)
        {
            AddNumber(part.EveryHours, Unit.Hour, Concepts.OrderInterval, OrderField.Interval);
            AddTruth(part.ByClock, Concepts.OrderByClock, OrderField.ByClock);
            AddTruth(part.AsNeeded, Concepts.OrderAsNeeded, OrderField.AsNeeded);
        }

        // Of a hold that ends and is followed by suction nobody knows when it ends; nor what holds where the coded parts ask for suction.
        var isOpen = part.DoNotSuction is null || (part.DoNotSuction == true && (isTimed || part.ByClock is not null || part.AsNeeded == true));
        if (isOpen || part.DoNotSuction == true)
        {
            scribe.Fact(frame, TextOrdinal.Of(index, OrderField.DoNotSuction), Concepts.OrderDoNotSuction, isOpen ? FactValue.Unreadable : FactValue.Yes);
        }

        if (part.NamesThickSecretions)
        {
            scribe.Fact(frame, TextOrdinal.OfReason(index), Concepts.AllowanceReason, FactValue.Code(Answers.Of("thick-secretions")));
        }

        if (part.Mode is { } mode)
        {
            scribe.Fact(frame, TextOrdinal.OfMode(index), Concepts.RegulatorMode, FactValue.Code(Answers.Of(mode)));
        }

        if (part.Unread.Count > 0 || (isTimed && TimingDiffers(part, scribe.Into)))
        {
            scribe.Fact(frame, TextOrdinal.OfUnread(index), Concepts.OrderUnread, FactValue.Text);
        }

        void AddNumber(decimal? number, Unit unit, Concept concept, OrderField field, Comparator comparator = Comparator.Exactly)
        {
            if (number is { } amount && FactValue.TryNumber(amount, unit, out var value, comparator))
            {
                scribe.Fact(frame, TextOrdinal.Of(index, field), concept, value);
            }
        }

        void AddWord(string? word, Concept concept, OrderField field)
        {
            if (word is not null)
            {
                scribe.Fact(frame, TextOrdinal.Of(index, field), concept, FactValue.Code(Answers.Of(word)));
            }
        }

        void AddTruth(bool? says, Concept concept, OrderField field)
        {
            if (says is { } truth)
            {
                scribe.Fact(frame, TextOrdinal.Of(index, field), concept, truth ? FactValue.Yes : FactValue.No);
            }
        }
    }

    // Saline under a condition has its reason in the order: nothing of it is left to judge.
    private static void AddSaline(OrderPart part, int index, in Frame frame, Scribe scribe)
    {
        if (part.Saline is not { } says || part.SalineIsConditional)
        {
            if (part.Saline == true)
            {
                scribe.Fact(frame, TextOrdinal.Of(index, OrderField.Saline), Concepts.OrderUnderCondition, FactValue.Yes);
            }

            return;
        }

        var value = says && part.SalineMillilitres is { } volume && FactValue.TryNumber(volume, Unit.Millilitre, out var amount) ? amount : says ? FactValue.Yes : FactValue.No;
        scribe.Fact(frame, TextOrdinal.Of(index, OrderField.Saline), Concepts.SalineInstilled, value);
    }

    private static void AddOxygen(OrderPart part, int index, in Frame frame, Scribe scribe)
    {
        if (part.Preoxygenate is not { } says)
        {
            return;
        }

        var value = says && part.OxygenPercent is { } percent && FactValue.TryNumber(percent, Unit.Percent, out var amount) ? amount : says ? FactValue.Yes : FactValue.No;
        scribe.Fact(frame, TextOrdinal.Of(index, OrderField.Preoxygenation), Concepts.Preoxygenation, value);
    }

    private static string Words(ErrorProneKind kind) => kind switch
    {
        ErrorProneKind.TrailingZero => "a number with a zero behind the point that says nothing",
        ErrorProneKind.NoLeadingZero => "a decimal without a zero before the point",
        ErrorProneKind.CubicCentimetres => "cc for mL",
        _ => "an abbreviation for daily",
    };
}

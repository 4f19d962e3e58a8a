namespace AirwayGuard.Fhir.Reading;

/// <summary>The members of R4's Observation and its components that are told apart; from Category on they are passed over.</summary>
internal enum ObservationMember : byte
{
    Unknown, ResourceType, Id, Meta, Identifier, BasedOn, PartOf, Status, Code, Subject, Focus, Encounter,
    EffectiveDateTime, EffectivePeriod, EffectiveInstant,
    ValueQuantity, ValueCodeableConcept, ValueString, ValueBoolean, ValueInteger, ValueDateTime,
    ValueRange, ValueRatio, ValueSampledData, ValueTime, ValuePeriod,
    DataAbsentReason, Device, HasMember, Component,
    Category, Issued, Performer, Interpretation, Note, BodySite, Method, Specimen, ReferenceRange, DerivedFrom,
    Text, Language, ImplicitRules, Extension,
}

/// <summary>Finds a member by its name as written.</summary>
internal static class ObservationMembers
{
    private static readonly (byte[] Name, ObservationMember Member)[][] ByLength = Build();

    public static ObservationMember Find(ReadOnlySpan<byte> name)
    {
        if (name.Length < ByLength.Length)
        {
            foreach (var (known, member) in ByLength[name.Length])
            {
                if (name.SequenceEqual(known))
                {
                    return member;
                }
            }
        }

        return ObservationMember.Unknown;
    }

    public static bool IsValue(ObservationMember member) => member is >= ObservationMember.ValueQuantity and <= ObservationMember.ValuePeriod;

    /// <summary>Members that a component has too.</summary>
    public static bool IsOfComponent(ObservationMember member) =>
        IsValue(member) || member is ObservationMember.Id or ObservationMember.Code or ObservationMember.DataAbsentReason
            or ObservationMember.Interpretation or ObservationMember.ReferenceRange or ObservationMember.Extension;

    private static (byte[] Name, ObservationMember Member)[][] Build()
    {
        var members = Enum.GetValues<ObservationMember>()
            .Where(member => member != ObservationMember.Unknown)
            .Select(member => (Name: System.Text.Encoding.UTF8.GetBytes(char.ToLowerInvariant(member.ToString()[0]) + member.ToString()[1..]), Member: member))
            .ToList();
        return [.. Enumerable.Range(0, members.Max(member => member.Name.Length) + 1)
            .Select(length => members.Where(member => member.Name.Length == length).ToArray())];
    }
}

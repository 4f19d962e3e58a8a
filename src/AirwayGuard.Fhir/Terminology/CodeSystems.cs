namespace AirwayGuard.Fhir.Terminology;

/// <summary>Systems and properties that AirwayGuard's maps and rows name.</summary>
public static class CodeSystems
{
    public const string Base = "https://airwayguard.example.org/fhir/";
    public const string AirwayCare = Base + "CodeSystem/airway-care";
    public const string AirwayCareAnswer = Base + "CodeSystem/airway-care-answer";
    public const string DeviceKind = Base + "CodeSystem/device-kind";
    public const string OrderDetail = Base + "CodeSystem/order-detail";
    public const string Ucum = "http://unitsofmeasure.org";

    /// <summary>Product property of a map: the unit of a row that is charted without one, a UCUM code.</summary>
    public const string DefaultUnit = Base + "property/default-unit";

    /// <summary>Product property of a map: which pass of its column a row speaks of, 1 to 99.</summary>
    public const string PassNumber = Base + "property/pass-number";

    /// <summary>Product property of a map: <c>true</c> for a code that names a set value, not a measured one.</summary>
    public const string Setting = Base + "property/setting";

    /// <summary>Dependency (<c>dependsOn</c>) of an answer in a map: the one concept whose answer it is, where others have an answer of the same code.</summary>
    public const string Row = Base + "property/row";

    /// <summary>What a product may say here.</summary>
    internal static IReadOnlyList<string> ProductProperties { get; } = [DefaultUnit, PassNumber, Setting];

    // OIDs of the standard systems, as HL7's terminology registry lists them; some sources send these.
    private static readonly (string Oid, string Uri)[] Registered =
    [
        ("urn:oid:2.16.840.1.113883.6.1", "http://loinc.org"),
        ("urn:oid:2.16.840.1.113883.6.96", "http://snomed.info/sct"),
        ("urn:oid:2.16.840.1.113883.6.24", "urn:iso:std:iso:11073:10101"),
        ("urn:oid:2.16.840.1.113883.6.8", Ucum),
    ];

    /// <summary>Other spellings of the standard systems, and the one meant.</summary>
    internal static IEnumerable<KeyValuePair<string, string>> Spellings => Registered.Select(known => new KeyValuePair<string, string>(known.Oid, known.Uri));

    /// <summary>One spelling for each system: a plain OID gets its <c>urn:oid:</c>, the OID of a standard system becomes its address.</summary>
    public static string Canonical(string system)
    {
        var spelled = system.Trim();
        if (IsPlainOid(spelled))
        {
            spelled = "urn:oid:" + spelled;
        }

        foreach (var (oid, uri) in Registered)
        {
            if (spelled == oid)
            {
                return uri;
            }
        }

        return spelled;
    }

    private static bool IsPlainOid(string system) =>
        system.Length > 2 && system[0] is >= '0' and <= '2' && system[1] == '.' && system.All(c => char.IsAsciiDigit(c) || c == '.');
}

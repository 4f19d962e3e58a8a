using System.ComponentModel.DataAnnotations;
using System.Globalization;
using System.Reflection;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.WriteBack;
using AirwayGuard.Host.Service.CdsHooks;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Sending;

namespace AirwayGuard.Host.Service;

/// <summary>
/// Every setting the service knows, checked before anything is opened: a name that nobody reads, a value that is not of its kind and
/// one out of range are each told with their place. A mistyped setting would otherwise leave the default in force unseen.
/// </summary>
internal static class ServiceSettings
{
    private const string Root = ServiceOptions.Section;

    private static readonly (string Section, Type Options)[] Sections =
    [
        (ServiceOptions.Section, typeof(ServiceOptions)), (IntakeOptions.Section, typeof(IntakeOptions)), (SendOptions.Section, typeof(SendOptions)),
        (FhirSinkOptions.Section, typeof(FhirSinkOptions)), (FhirClientOptions.Section, typeof(FhirClientOptions)),
        (CdsHooksOptions.Section, typeof(CdsHooksOptions)),
    ];

    public static IReadOnlyList<Problem> ProblemsOf(IConfiguration configuration)
    {
        var problems = new List<Problem>(UnknownIn(configuration));
        foreach (var (name, type) in Sections)
        {
            Check(configuration.GetSection(name), type, problems);
        }

        return problems;
    }

    private static IEnumerable<Problem> UnknownIn(IConfiguration configuration)
    {
        foreach (var entry in configuration.GetSection(Root).AsEnumerable(makePathsRelative: false).Where(entry => entry.Value is not null))
        {
            var parts = entry.Key.Split(':');
            var known = Sections.Any(one => one.Section.Split(':') is var section
                && parts.Length > section.Length && parts.Take(section.Length).SequenceEqual(section, StringComparer.OrdinalIgnoreCase)
                && Reads(one.Options, parts.AsSpan(section.Length), entry.Value!));
            if (!known)
            {
                yield return new Problem(Codes.OptionUnknown, entry.Key, "nothing reads this setting");
            }
        }
    }

    /// <summary>True where a value stands at a place that is read; an empty list in JSON is an empty value.</summary>
    private static bool Reads(Type type, ReadOnlySpan<string> path, string value)
    {
        if (PropertyOf(type, path[0]) is not { } property)
        {
            return false;
        }

        return ItemOf(property) is { } item
            ? path.Length == 1 ? value.Length == 0 : path.Length > 2 && Reads(item, path[2..], value)
            : path.Length == 1 || IsList(property);
    }

    /// <returns>False where the section cannot be bound, which was told.</returns>
    private static bool Check(IConfigurationSection section, Type type, List<Problem> problems)
    {
        var unreadable = UnreadableIn(section, type).ToList();
        problems.AddRange(unreadable);
        // What stands below a plain value, or as a plain value in the place of a list or an object, was told as unknown.
        var isBound = unreadable.Count == 0 && section.Value is null
            && !Array.Exists(Properties(type), property => IsList(property)
                ? ItemOf(property) is not null && section[property.Name] is { Length: > 0 }
                : section.GetSection(property.Name).GetChildren().Any());
        foreach (var property in Properties(type))
        {
            foreach (var item in ItemOf(property) is null ? [] : section.GetSection(property.Name).GetChildren())
            {
                isBound &= Check(item, ItemOf(property)!, problems);
            }
        }

        // Without an address of a server the demo is meant.
        if (isBound && (type != typeof(FhirClientOptions) || section["BaseUrl"] is { Length: > 0 }))
        {
            problems.AddRange(OutOfRangeIn(section, type));
        }

        return isBound;
    }

    private static IEnumerable<Problem> UnreadableIn(IConfigurationSection section, Type type)
    {
        foreach (var property in Properties(type))
        {
            var given = section.GetSection(property.Name);
            if (given.Value is not null && !IsList(property) && !Converts(given, property.PropertyType))
            {
                yield return new Problem(Codes.OptionInvalid, $"{section.Path}:{property.Name}", $"the value is no {Kind(property.PropertyType)}");
            }
        }
    }

    private static IEnumerable<Problem> OutOfRangeIn(IConfigurationSection section, Type type)
    {
        var options = section.Get(type) ?? Activator.CreateInstance(type)!;
        var results = new List<ValidationResult>();
        Validator.TryValidateObject(options, new ValidationContext(options), results, validateAllProperties: true);
        return results.Select(result => new Problem(Codes.OptionInvalid, $"{section.Path}:{PlaceOf(section, result)}", WhyOf(result, type)));
    }

    // Options count the entries of a list from 0; the settings may have numbered them otherwise.
    private static string? PlaceOf(IConfigurationSection section, ValidationResult result) =>
        result.MemberNames.FirstOrDefault() is { } member && member.Split(':') is [var list, var at, var inside]
            ? $"{list}:{section.GetSection(list).GetChildren().ElementAt(int.Parse(at, CultureInfo.InvariantCulture)).Key}:{inside}"
            : result.MemberNames.FirstOrDefault();

    // The framework's own sentence names the property of the program and not its range in our words.
    private static string WhyOf(ValidationResult result, Type type) =>
        result.MemberNames.FirstOrDefault() is { } member && PropertyOf(type, member)?.GetCustomAttribute<RangeAttribute>() is { } range
            ? string.Create(CultureInfo.InvariantCulture, $"it takes {range.Minimum} to {range.Maximum}")
            : result.ErrorMessage ?? "it is out of range";

    private static bool Converts(IConfigurationSection given, Type type)
    {
        try
        {
            return given.Get(type) is not null;
        }
        catch (InvalidOperationException)
        {
            return false;
        }
    }

    private static string Kind(Type type) => (Nullable.GetUnderlyingType(type) ?? type) switch
    {
        var one when one == typeof(bool) => "true or false",
        var one when one == typeof(int) => "whole number",
        var one when one == typeof(double) => "number",
        var one when one == typeof(DateTimeOffset) => "time with an offset",
        var one when one == typeof(Uri) => "address",
        _ => "value of its kind",
    };

    private static PropertyInfo[] Properties(Type type) => type.GetProperties(BindingFlags.Public | BindingFlags.Instance);

    private static PropertyInfo? PropertyOf(Type type, string name) =>
        Array.Find(Properties(type), property => property.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    private static bool IsList(PropertyInfo property) => property.PropertyType.IsGenericType && property.PropertyType.GetGenericTypeDefinition() == typeof(IList<>);

    /// <summary>The options that each entry of a list has; null for a list of plain values and for what is no list.</summary>
    private static Type? ItemOf(PropertyInfo property) =>
        IsList(property) && property.PropertyType.GetGenericArguments()[0] is var item && item.Assembly == typeof(ServiceSettings).Assembly ? item : null;
}

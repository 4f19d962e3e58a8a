namespace AirwayGuard.Fhir.Tests.Terminology;

/// <summary>Check digits of LOINC (modulus 10) and SNOMED CT (Verhoeff's dihedral scheme), computed from their published rules.</summary>
internal static class CheckDigits
{
    public static bool IsLoinc(string code)
    {
        var parts = code.Split('-');
        var sum = 0;
        for (var i = 0; i < parts[0].Length; i++)
        {
            var digit = (parts[0][^(i + 1)] - '0') * (i % 2 == 0 ? 2 : 1);
            sum += (digit / 10) + (digit % 10);
        }

        return (10 - (sum % 10)) % 10 == parts[1][0] - '0';
    }

    public static bool IsSnomed(string code)
    {
        var check = 0;
        for (var i = 0; i < code.Length; i++)
        {
            var digit = code[^(i + 1)] - '0';
            for (var turn = 0; turn < i % 8; turn++)
            {
                digit = "1576283094"[digit] - '0';
            }

            check = Product(check, digit);
        }

        return check == 0;
    }

    // The group of symmetries of a pentagon: 0 to 4 turn, 5 to 9 reflect.
    private static int Product(int a, int b) => (a < 5, b < 5) switch
    {
        (true, true) => (a + b) % 5,
        (true, false) => 5 + ((a + b) % 5),
        (false, true) => 5 + ((a - b + 5) % 5),
        _ => (a - b + 5) % 5,
    };
}

using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Fhir.Tests.Reading;

public sealed class LatelyTests
{
    [Fact]
    public void What_was_made_is_given_again_and_of_old_things_a_bounded_number_is_remembered()
    {
        var made = new List<int>();
        var lately = new Lately<int, string>(3, key =>
        {
            made.Add(key);
            return $"{key}";
        });

        Assert.Equal(["1", "2", "1", "2"], ((int[])[1, 2, 1, 2]).Select(lately.Of), StringComparer.Ordinal);
        Assert.Equal([1, 2], made);

        // The third ends a generation, which is remembered for one more.
        Assert.Equal(["3", "1", "4", "5", "1"], ((int[])[3, 1, 4, 5, 1]).Select(lately.Of), StringComparer.Ordinal);
        Assert.Equal([1, 2, 3, 4, 5], made);
        Assert.Equal(["6", "7", "8", "2"], ((int[])[6, 7, 8, 2]).Select(lately.Of), StringComparer.Ordinal);
        Assert.Equal([1, 2, 3, 4, 5, 6, 7, 8, 2], made);
    }
}

namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>Every diagnostic code is unique, well-formed, and on the page that users look it up on.</summary>
public class CodesPageTests
{
    [Fact]
    public void ThePage_SaysWhatTheSourcesSay()
    {
        var path = Path.Combine(Repository.Root, CodesPage.File);
        if (Environment.GetEnvironmentVariable(CodesPage.Switch) == "1")
        {
            File.WriteAllText(path, CodesPage.Write());
        }

        Assert.True(File.Exists(path), $"{CodesPage.File} is missing; run the tests once with {CodesPage.Switch}=1.");
        Assert.True(CodesPage.Write() == File.ReadAllText(path), $"{CodesPage.File} differs from Codes.*.cs; run the tests once with {CodesPage.Switch}=1 and review the change.");
    }

    [Fact]
    public void EveryCode_HasItsRow_WithTitleAndAdvice()
    {
        Assert.NotEmpty(KnownCodes.All);
        var rows = CodesPage.Write().Split('\n');
        Assert.All(KnownCodes.All, it => Assert.Contains(rows, row => row.StartsWith($"| {it.Code.Id} | ", StringComparison.Ordinal) && row.Contains(it.Code.Title, StringComparison.Ordinal) && row.Contains(it.Code.Advice, StringComparison.Ordinal)));
    }

    [Fact]
    public void AnId_IsUsedOnce() =>
        Rule.Holds("Used twice:", KnownCodes.All.GroupBy(it => it.Code.Id, StringComparer.Ordinal).Where(same => same.Count() > 1).Select(same => $"{same.Key}: {string.Join(", ", same.Select(it => it.Field))}"));

    [Fact]
    public void AnId_IsAGAndFourDigits_OfAnArea() =>
        Rule.Holds("Not an id:", KnownCodes.All.Where(it => !KnownCodes.IsId(it.Code.Id)).Select(it => $"{it.Field}: {it.Code.Id}"));

    [Fact]
    public void ATitle_IsAFewWords_AndAdvice_IsASentence() =>
        Rule.Holds(
            "A title begins with a capital and has no full stop; advice ends with one:",
            KnownCodes.All.Where(it => it.Code.Title.Length is 0 or > 80 || it.Code.Title[^1] == '.' || !char.IsUpper(it.Code.Title[0]) || !it.Code.Advice.EndsWith('.'))
                .Select(it => $"{it.Code.Id}: {it.Code.Title} / {it.Code.Advice}"));
}

using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Fhir.Tests.Reading;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Fhir.Tests.Pages;

public sealed class ChartingPageTests
{
    public static TheoryData<string> Codes => [.. ChartingNotes.All.Select(note => note.Code)];

    public static TheoryData<string, string> StandardRows =>
        [.. StandardCode.All.Where(code => code.Target == CodeSystems.AirwayCare).Select(code => new TheoryDataRow<string, string>(code.System, code.Code))];

    [Fact]
    public void The_page_of_charting_reads_as_the_tables()
    {
        var path = Path.Combine(Root(), ChartingPage.File);
        var written = ChartingPage.Write();
        if (Environment.GetEnvironmentVariable(ChartingPage.Switch) == "1")
        {
            File.WriteAllText(path, written);
        }

        Assert.Equal(written, File.ReadAllText(path));
    }

    [Fact]
    public void Every_concept_of_the_public_code_system_has_its_entry_in_order()
    {
        var wanted = Concepts.Table.ToArray().Where(info => info.IsInput).Select(info => info.Code);

        Assert.Equal(wanted, ChartingNotes.All.Select(note => note.Code), StringComparer.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void An_example_row_is_read_as_its_concept_with_no_problem(string code)
    {
        var note = ChartingNotes.All.Single(note => note.Code == code);

        var read = Some.Read(ChartingRow.Write(note), new FhirArrivalReader(ShippedMaps.StandardCodes));

        Assert.Empty(read.Codes);
        Assert.Equal(code, Concepts.Info(read.Only.Concept).Code);
        Assert.Equal(note.ReadAs, Read.InWords(read.Only.Value));
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void An_example_row_is_valid_in_the_strict_reading_of_R4(string code)
    {
        var row = (Observation)FhirJsonDeserializer.STRICT.DeserializeResource(ChartingRow.Write(ChartingNotes.All.Single(note => note.Code == code)));

        Assert.Equal(ObservationStatus.Final, row.Status);
    }

    [Theory]
    [MemberData(nameof(StandardRows))]
    public void A_standard_code_is_read_as_the_page_says(string system, string code)
    {
        var listed = StandardCode.All.Single(row => row.Target == CodeSystems.AirwayCare && row.System == system && row.Code == code);
        var note = ChartingNotes.All.SingleOrDefault(note => note.Code == listed.Means) ?? ChartingNotes.All[^1];

        var read = Some.Read(ChartingRow.Write(note, system, code), new FhirArrivalReader(ShippedMaps.StandardCodes));

        Assert.Equal(listed.Means, string.Concat(read.Reading.Facts.Select(fact => Concepts.Info(fact.Concept).Code)));
        Assert.Equal(listed.IsSetting, read.Reading.Facts.Any(fact => fact.Marks.HasFlag(FactMarks.Setting)));
        Assert.Equal(listed.Equivalence == "inexact", read.Reading.Facts.Any(fact => fact.Marks.HasFlag(FactMarks.Inexact)));
    }

    [Fact]
    public void The_map_that_the_page_shows_has_no_fault_and_gives_its_rows_their_meaning()
    {
        var loaded = CodeMap.Load(ShippedMaps.Standard, new MapSource("site.json", Encoding.UTF8.GetBytes(ChartingPage.SiteMap)));
        var reader = new FhirArrivalReader(loaded.Map!);

        Assert.Empty(loaded.Faults);
        Assert.Equal("110 mm[Hg]", Read.InWords(Some.Read(Some.Observation("wall-suction", Some.Quantity("110"), system: Some.Row), reader).Only.Value));
        Assert.Empty(Some.Read(Some.Observation("oral-suction", Some.Quantity("110"), system: Some.Row), reader).Reading.Facts);
        Assert.Equal("closed", Read.InWords(Some.Read(Some.Observation("suction-system", "\"valueString\":\"In-line catheter\""), reader).Only.Value));
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "AirwayGuard.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The tests do not run inside the repository.");
        }

        return folder.FullName;
    }
}

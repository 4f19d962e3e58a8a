using System.Xml.Linq;

namespace AirwayGuard.Conventions.Tests.Layout;

/// <summary>A project as its file says, without what the shared build files add.</summary>
internal sealed class ProjectFile
{
    private readonly XElement project;

    private ProjectFile(string file)
    {
        File = file;
        Name = Path.GetFileNameWithoutExtension(file);
        project = XElement.Parse(Repository.Read(file));
    }

    public string File { get; }

    public string Name { get; }

    public string Sdk => project.Attribute("Sdk")?.Value ?? "";

    /// <summary>True where the shared web framework brings the host.</summary>
    public bool IsWeb => Sdk == "Microsoft.NET.Sdk.Web" || Included("FrameworkReference").Contains("Microsoft.AspNetCore.App", StringComparer.Ordinal);

    public IEnumerable<string> Packages => Included("PackageReference");

    /// <summary>Names of the projects it references.</summary>
    public IEnumerable<string> Projects => Included("ProjectReference").Select(path => Path.GetFileNameWithoutExtension(path.Replace('\\', '/')));

    public static IReadOnlyList<ProjectFile> In(string folder) =>
        [.. Repository.Under(folder).Where(file => file.EndsWith(".csproj", StringComparison.Ordinal)).Select(file => new ProjectFile(file))];

    private IEnumerable<string> Included(string element) =>
        project.Descendants(element).Select(reference => reference.Attribute("Include")?.Value ?? "");
}

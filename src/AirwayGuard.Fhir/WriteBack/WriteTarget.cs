using AirwayGuard.Core.Findings;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>One resource as it is to stand on the server, and what may be done to it where a person changed it.</summary>
internal abstract class WriteTarget(string system, Guid key, DomainResource wanted, MessageBasis basis, string runMode)
{
    /// <summary>Reason on a copy that is taken back.</summary>
    protected const string SecondCopy = "Entered in error: a second copy of the same.";

    public string Type => wanted.TypeName;

    public string System => system;

    public Guid Key => key;

    public string Value => key.ToString("D");

    public DomainResource Wanted => wanted;

    public MessageBasis Basis => basis;

    public string RunMode => runMode;

    /// <summary>From then on nothing is written for it: the claim has run out.</summary>
    public DateTimeOffset Until { get; init; } = DateTimeOffset.MaxValue;

    /// <summary>Whom a resource of this type is about.</summary>
    public abstract ResourceReference? SubjectOf(Resource resource);

    /// <summary>The finding is taken back.</summary>
    public abstract bool Withdraws { get; }

    /// <summary>What the wanted state rests on, for its Provenance.</summary>
    public abstract IEnumerable<string> Sources { get; }

    /// <summary>What a version on the server rests on, as far as it says so itself.</summary>
    public abstract IEnumerable<string> SourcesOf(Resource standing);

    /// <summary>A person has ended it.</summary>
    public abstract bool IsEndedByPerson(Resource standing);

    /// <summary>Deleting it ends what it says.</summary>
    public abstract bool DeletionEnds { get; }

    /// <summary>Somebody else's work is in it, whoever wrote last.</summary>
    public virtual bool HoldsOthersWork(Resource standing) => IsShared(standing);

    /// <summary>Ends, by its least fields, a resource that holds somebody else's work.</summary>
    /// <returns>False where it stays as it is.</returns>
    public abstract bool TryEnd(Resource standing);

    /// <summary>Marks a second copy, made by a race of the server's, as entered in error.</summary>
    public abstract void TakeBack(Resource copy);

    public static bool IsShared(Resource standing) => (standing.Meta?.Tag ?? []).Any(tag => tag.System == WrittenSystems.Authorship && tag.Code == WrittenSystems.Shared);

    public static void MarkShared(Resource standing)
    {
        standing.Meta ??= new Meta();
        if (!IsShared(standing))
        {
            standing.Meta.Tag.Add(new Coding(WrittenSystems.Authorship, WrittenSystems.Shared));
        }
    }
}

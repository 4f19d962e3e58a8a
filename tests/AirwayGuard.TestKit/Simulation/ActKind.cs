namespace AirwayGuard.TestKit.Simulation;

/// <summary>What a person does at the server.</summary>
internal enum ActKind
{
    /// <summary>Writes a version of a resource.</summary>
    Chart,

    /// <summary>Deletes a charted resource.</summary>
    DeleteRow,

    /// <summary>Sets our Flag inactive.</summary>
    CloseFlag,

    /// <summary>Gives our DetectedIssue a mitigation.</summary>
    MitigateIssue,

    /// <summary>Writes a note of their own into our Flag.</summary>
    EditFlag,

    /// <summary>Writes a note of their own into our DetectedIssue.</summary>
    EditIssue,

    DeleteFlag,

    DeleteIssue,
}

namespace AirwayGuard.Worker;

/// <summary>What is common to claims of patients and of messages.</summary>
public static class Claims
{
    /// <summary>
    /// Claims of one piece of work of which nobody heard again, since the process ended, before it is set aside. More than tries that
    /// failed with a word: what ended the process was most often something else, as a restart or a lack of memory, and what is set
    /// aside waits for a person. Less than any number would let one file end the process for ever.
    /// </summary>
    public const int MostWithoutWord = 20;
}

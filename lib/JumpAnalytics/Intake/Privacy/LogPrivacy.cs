namespace JumpAnalytics;

/// <summary>
/// A log without what should not leave the base. Each gives a new log and leaves the one it is given alone. What the log's own columns hold
/// is screened; what people put into other places is not: drop and mission ids, terrains, aircraft, canopies, file names and the notice are
/// kept as they are, so no name should stand in them.
/// </summary>
public static class LogPrivacy
{
    /// <summary>
    /// The log with codes in place of people (spotter, jumper), the same code for the same person in every log of this key.
    /// Remarks and track references are dropped, since they may name people. In refused rows and values set aside people have
    /// their codes too; what stands under a header nobody knows, in a row whose fields may stand under wrong headers, or as words
    /// where a number belongs is withheld.
    /// </summary>
    /// <param name="log">The records.</param>
    /// <param name="key">The key of the base.</param>
    /// <exception cref="InvalidOperationException">Two people of the log get the same code.</exception>
    /// <exception cref="NotSupportedException">A person's code has letters that this system has no tables for.</exception>
    public static JumpLog WithPseudonyms(this JumpLog log, PseudonymKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        var pseudonyms = new Pseudonyms(key);
        return LogScreen.Apply(log,
            new LogScreen { Person = pseudonyms.Of, ShownPerson = pseudonyms.Of, HidesRemarks = true, HidesTracks = true });
    }

    /// <summary>
    /// The log without injuries and remarks: neither in the records nor in refused rows and values set aside, where also what stands under
    /// a header nobody knows or in a row whose fields may stand under wrong headers is withheld. People stay.
    /// </summary>
    /// <param name="log">The records.</param>
    public static JumpLog WithoutSensitiveFields(this JumpLog log) =>
        LogScreen.Apply(log, new LogScreen { HidesRemarks = true, HidesInjuries = true });

    /// <summary>
    /// The log for a report that is handed on. It knows that it is (<see cref="JumpLog.Sharing"/>): it hands out no drop and no landing,
    /// rates by cell withhold cells of few people, and whatever else rests on single rows is refused or withheld. Injuries, remarks and
    /// track references are dropped, and people are plain numbers, by which they can be counted. A code whose letters this system can't
    /// tell counts as not recorded.
    /// </summary>
    /// <param name="log">The records; one that is for sharing stays as it is.</param>
    /// <param name="fewestPeople">Fewest people that a shown cell rests on, 2 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The fewest people are below 2.</exception>
    public static JumpLog ForSharing(this JumpLog log, int fewestPeople = LogSharing.FewPeople)
    {
        var sharing = new LogSharing(fewestPeople);
        if (log.Sharing is { } already) return already.FewestPeople >= fewestPeople ? log : throw LogSharing.Refusal();
        var numbers = new Dictionary<string, string>();
        return LogScreen.Apply(log, new LogScreen
        {
            Person = Number, ShownPerson = _ => LogScreen.Withheld, HidesRemarks = true, HidesInjuries = true,
            HidesTracks = true, Sharing = sharing,
        });

        string? Number(string name)
        {
            if (PersonName.TryNormal(name) is not { } normal) return null;
            numbers.TryAdd(normal, $"person {numbers.Count + 1}");
            return numbers[normal];
        }
    }
}

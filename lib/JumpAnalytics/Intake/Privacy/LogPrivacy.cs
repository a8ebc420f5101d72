namespace JumpAnalytics;

/// <summary>
/// A log without what should not leave the base. Each gives a new log and leaves the one it is given alone. What the log's own columns hold is
/// screened; what people put into other places is not: drop and mission ids, terrains, aircraft, canopies, file names and the notice are kept
/// as they are, so no name should stand in them.
/// </summary>
public static class LogPrivacy
{
    /// <summary>
    /// The log with codes in place of people (spotter, jumper), the same code for the same person in every log of this key. Remarks and track
    /// references are dropped, since they may name people. In refused rows and values set aside people have their codes too; what stands
    /// under a header nobody knows, in a row whose fields may stand under wrong headers, or as words where a number belongs is withheld.
    /// </summary>
    /// <param name="log">The records.</param>
    /// <param name="key">The key of the base.</param>
    /// <exception cref="InvalidOperationException">Two people of the log get the same code.</exception>
    /// <exception cref="NotSupportedException">A person's code has letters that this system has no tables for.</exception>
    public static JumpLog WithPseudonyms(this JumpLog log, PseudonymKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        var pseudonyms = new Pseudonyms(key);
        return LogScreen.Apply(log, new LogScreen { Person = pseudonyms.Of, ShownPerson = pseudonyms.Of, HidesRemarks = true, HidesTracks = true });
    }

    /// <summary>
    /// The log without injuries and remarks: neither in the records nor in refused rows and values set aside, where also what stands under a
    /// header nobody knows or in a row whose fields may stand under wrong headers is withheld. People stay.
    /// </summary>
    /// <param name="log">The records.</param>
    public static JumpLog WithoutSensitiveFields(this JumpLog log) => LogScreen.Apply(log, new LogScreen { HidesRemarks = true, HidesInjuries = true });

    /// <summary>
    /// The log for a report that is handed on: without injuries, remarks and track references, and with people as plain numbers in the order they
    /// appear, by which they can be counted; where a report would show a person, it is withheld. A code whose letters this system can't tell counts as not recorded.
    /// </summary>
    /// <param name="log">The records.</param>
    public static JumpLog ForSharing(this JumpLog log)
    {
        var numbers = new Dictionary<string, string>();
        return LogScreen.Apply(log, new LogScreen { Person = Number, ShownPerson = _ => LogScreen.Withheld, HidesRemarks = true, HidesInjuries = true, HidesTracks = true });

        string? Number(string name)
        {
            if (PersonName.TryNormal(name) is not { } normal) return null;
            numbers.TryAdd(normal, $"person {numbers.Count + 1}");
            return numbers[normal];
        }
    }
}

namespace JumpAnalytics;

public sealed partial class JumpLog
{
    /// <summary>
    /// The part of the log that meets conditions on its columns, parted by commas: <c>terrain=meadow|ridge, wind_speed_mph&gt;=10,
    /// measured_by!=estimate</c>. Columns are those of the log format, in any case; a quantity has its unit in the column's name. A value
    /// that was not recorded meets no condition. Where all conditions are on columns of drops, drops without a landing stay.
    /// </summary>
    /// <param name="filter">The conditions; <c>all</c> for the log as it is.</param>
    /// <exception cref="ArgumentException">
    /// There is no such column or value (the message lists those there are, and the nearest), a number or unit is
    /// wrong, or nothing is left.
    /// </exception>
    public JumpLog Where(string filter)
    {
        ArgumentNullException.ThrowIfNull(filter);
        return filter.Trim() is All or ""
            ? this : Meeting(LogFilter.Parse(filter), string.Join(", ", filter.Split(',', StringSplitOptions.TrimEntries)));
    }

    /// <summary>The part of the log that one base flew.</summary>
    /// <param name="name">The base as the log names it; <c>all</c> for the log as it is.</param>
    /// <exception cref="ArgumentException">The log has no such base; the message lists those there are, and the nearest.</exception>
    public JumpLog ForBase(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return name.Trim() is All or "" ? this : Meeting([LogCondition.Base(name.Trim())], $"base={name.Trim()}");
    }

    private JumpLog Meeting(IReadOnlyList<LogCondition> conditions, string words)
    {
        if (Sharing is not null && conditions.FirstOrDefault(c => !c.Column.CanBeShared) is { } closed)
            throw new InvalidOperationException(
                $"A log for sharing can't be cut by {closed.Column.Header}: cut the log before, and share the part.");
        foreach (var condition in conditions) condition.RequireIn(this, _drops, _landings);
        var ofLandings = conditions.Where(c => c.Column.IsOfLandings).ToList();
        var drops = _drops.Where(d => conditions.Except(ofLandings).All(c => c.Holds(d, null)))
            .ToHashSet<Drop>(ReferenceEqualityComparer.Instance);
        var landings = _landings.Where(l => drops.Contains(l.Drop) && ofLandings.TrueForAll(c => c.Holds(l.Drop, l))).ToList();
        if (ofLandings.Count > 0) drops.IntersectWith(landings.Select(l => l.Drop));
        return drops.Count > 0 ? Cut([.. _drops.Where(drops.Contains)], landings, words)
            : throw new ArgumentException(
                $"Nothing of {Name} is left where {words}: each condition is met by some records, all of them by none.");
    }
}

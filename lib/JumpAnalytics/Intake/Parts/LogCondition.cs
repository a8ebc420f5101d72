using NodaTime;

namespace JumpAnalytics;

/// <summary>One condition on a column: equal to one of some values or to none of them, or above or below one.</summary>
internal sealed class LogCondition
{
    /// <summary>A number may pass a limit by this share and still count as on it: the size of rounding between units.</summary>
    private const double OnTheLimit = 1e-9;

    /// <summary>Values that a message lists.</summary>
    private const int MostListed = 12;

    private readonly string _comparison;
    private readonly IReadOnlyList<string> _written;
    private readonly IReadOnlyList<object> _values;
    private bool _anyCase;

    /// <exception cref="ArgumentException">
    /// A value is not of the column's kind, a text is compared by more or less, or a time by equal.
    /// </exception>
    public LogCondition(FilterColumn column, string comparison, IReadOnlyList<string> written)
    {
        (Column, _comparison, _written) = (column, comparison, written);
        if (comparison is not ("=" or "!="))
        {
            if (!column.IsOrdered) throw new ArgumentException($"{column.Header} is a text: compare it with = or !=.");
            if (written.Count > 1)
                throw new ArgumentException($"{column.Header}{comparison} takes one value, not {string.Join(" | ", written)}.");
        }
        else if (column.Column.Kind == ColumnKind.Time)
        {
            throw new ArgumentException(
                $"{column.Header} is cut between two moments: {column.Header}>=2031-07-01, {column.Header}<2031-08-01.");
        }
        _values = [.. written.Select(column.Read)];
    }

    public FilterColumn Column { get; }

    public static LogCondition Base(string name) => new(FilterColumn.Named(LogColumns.Base.Name), "=", [name]);

    /// <summary>
    /// Looks whether the log has the column and, for texts, the values; values are matched as the log holds them, else in any case.
    /// </summary>
    /// <exception cref="ArgumentException">It has not; the message says what there is, and the nearest.</exception>
    public void RequireIn(JumpLog log, IReadOnlyList<Drop> drops, IReadOnlyList<Landing> landings)
    {
        var held = (Column.IsOfLandings ? landings.Select(l => Column.Value(l.Drop, l)) : drops.Select(d => Column.Value(d, null)))
            .Where(v => v is not null).ToList();
        if (held.Count == 0) throw new ArgumentException($"Nothing of {log.Name} has a {Column.Header} recorded.");
        if (Column.Column.Kind != ColumnKind.Text) return;
        var texts = held.Cast<string>().Distinct().Order(StringComparer.Ordinal).ToList();
        _anyCase = !_written.All(texts.Contains);
        if (_written.FirstOrDefault(w => !texts.Contains(w, StringComparer.OrdinalIgnoreCase)) is not { } missing) return;
        if (Column.IsOfPeople)
            throw new ArgumentException($"'{missing}' is no {Column.Header} of {log.Name}. Codes of people are not listed here.");
        var near = LogFilter.Nearest(missing, texts);
        throw new ArgumentException($"'{missing}' is no {Column.Header} "
            + $"of {log.Name}{(near is null ? "." : $"; did you mean {near}?")} There {(texts.Count == 1 ? "is" : "are")} "
            + $"{string.Join(", ", texts.Take(MostListed))}{(texts.Count > MostListed ? $" and {texts.Count - MostListed} more" : "")}.");
    }

    /// <summary>Whether a drop, or a landing, meets it; what was not recorded does not.</summary>
    public bool Holds(Drop drop, Landing? landing) => Column.Value(drop, landing) is { } value && _comparison switch
    {
        "=" => _values.Any(v => Compare(value, v) == 0),
        "!=" => _values.All(v => Compare(value, v) != 0),
        ">=" => Compare(value, _values[0]) >= 0,
        "<=" => Compare(value, _values[0]) <= 0,
        ">" => Compare(value, _values[0]) > 0,
        _ => Compare(value, _values[0]) < 0,
    };

    private int Compare(object value, object limit) => (value, limit) switch
    {
        (double a, double b) => Math.Abs(a - b) <= OnTheLimit * Math.Abs(b) ? 0 : a.CompareTo(b),
        (LocalDateTime a, LocalDateTime b) => a.CompareTo(b),
        _ => string.Compare((string)value, (string)limit, _anyCase ? StringComparison.OrdinalIgnoreCase : StringComparison.Ordinal),
    };
}

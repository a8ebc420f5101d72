namespace JumpAnalytics;

/// <summary>
/// The log's header for a quantity as far as the base's header, or a unit behind every number of its column, states its unit. What neither
/// states stays open.
/// </summary>
internal static class UnitQuestion
{
    public static string Target(LogColumn column, HeaderWords words, ColumnValues? values = null)
    {
        if (column.Kind == ColumnKind.Bearing && words is { IsTrue: false, IsMagnetic: false, IsDoubtful: false }
            && values?.UnitBehind is "deg" or "degm") return $"{column.Name}_{values.UnitBehind}";
        if (column.Kind == ColumnKind.Bearing)
            return column.Name + (words.IsTrue == words.IsMagnetic || words.IsDoubtful
                ? "_unit" + ColumnMapReader.Open : words.IsTrue ? "_deg" : "_degm");
        var units = ColumnMatch.UnitsOf(column);
        if (units.Count == 0) return column.Name;
        if (words is { IsDoubtful: false, Units: [var stated] } && units.Any(u => u.Suffix == stated))
            return column.Headers().First(h => h.Unit!.Suffix == stated).Text;
        if (words is { IsDoubtful: false, Units: [] } && units.FirstOrDefault(u => u.Suffix == values?.UnitBehind) is { } behind)
            return column.Headers().First(h => h.Unit == behind).Text;
        return column.Name + (units.Count == 1 ? "" : "_unit") + ColumnMapReader.Open;
    }

    /// <summary>What the median would be under each unit, so that a person can tell which is meant.</summary>
    public static string? Choices(LogColumn column, ColumnValues values)
    {
        if (column.Kind == ColumnKind.Bearing) return "deg if true; degm if magnetic, and then declination_deg is needed";
        if (values.NumberShare == 0) return null;
        var median = values.Range.Median;
        var si = column.Kind switch { ColumnKind.Distance => "m", ColumnKind.Speed => "m/s", _ => "s" };
        var units = ColumnMatch.UnitsOf(column).OrderBy(u => u.Si).ToLookup(u => ValueEvidence.IsConceivable(column, u.ToSi(median)));
        var shown = units[true].Any() ? units[true] : units[false];
        var rest = units[true].Any() && units[false].Any() ? $" ({string.Join(", ", units[false])}: far off)" : "";
        return "median " + string.Join("; ", shown.Select(u => $"{Short(median)} {u.Suffix} = {Short(u.ToSi(median))} {si}")) + rest;
    }

    public static string? Note(LogColumn column, HeaderWords words, ColumnValues values, IReadOnlyList<string> unexplained)
    {
        var notes = new List<string>();
        if (unexplained.Count > 0) notes.Add($"what is '{string.Join(' ', unexplained)}'?");
        if (words.IsMultiple) notes.Add("the header speaks of hundreds or thousands: write the values out");
        if (words.Units.Count > 1) notes.Add($"the header names several units ({string.Join(", ", words.Units)})");
        else if (words.Units is [var unit] && ColumnMatch.UnitsOf(column) is { Count: > 0 } accepted && accepted.All(u => u.Suffix != unit))
            notes.Add($"the log has no {unit} for this: convert the values");
        if (words.IsAboveSea && column == LogColumns.ExitHeight) notes.Add("above the sea; the log needs the height above ground");
        notes.AddRange(OfTime(column, values));
        if (column == LogColumns.Declination) notes.Add("east must be positive");
        if (values.NumberShare is > 0.5 and < 0.95 && column.Kind is not (ColumnKind.Text or ColumnKind.YesNo))
            notes.Add("rows whose value is not a number will be refused");
        return notes.Count == 0 ? null : string.Join("; ", notes);
    }

    /// <summary>What to check of a column of days or times.</summary>
    public static IEnumerable<string> OfTime(LogColumn column, ColumnValues values)
    {
        if (column != LogColumns.Time && column != LogColumns.Date) yield break;
        if (values.DateShare < 0.5 && values.SerialShare < 0.5) yield return "the log needs the day too, here or in a column named date";
        if (values.OrderShown is { } order) yield return order;
    }

    private static string Short(double value) => Rounding.Fixed(value,
        Math.Abs(value) >= 10 ? 0 : Math.Abs(value) >= 0.1 || value == 0 ? 1 : 3).Replace(".0", "", StringComparison.Ordinal);
}

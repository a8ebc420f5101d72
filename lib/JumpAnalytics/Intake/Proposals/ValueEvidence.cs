namespace JumpAnalytics;

/// <summary>One reason for or against a match, in points of a score that reaches 100.</summary>
internal sealed record Evidence(double Points, string Text);

/// <summary>What the values of a column say for or against a quantity.</summary>
internal static class ValueEvidence
{
    /// <summary>Where the median of a quantity may lie, SI. Wide: it tells a height from a radius and no unit from another.</summary>
    private static readonly Dictionary<string, (double Low, double High)> _usual = new()
    {
        ["target_radius"] = (3, 150), ["forecast_drift"] = (20, 3000), ["landing_distance"] = (1, 1000),
        ["landing_beyond"] = (10, 3000), ["exit_distance"] = (20, 3000),
        ["exit_height"] = (200, 2500), ["spot_elevation"] = (-100, 4500), ["measured_sd"] = (0.1, 60),
        ["wind_speed"] = (0, 20), ["surface_wind_speed"] = (0, 20),
        ["ground_speed"] = (25, 90), ["exit_spacing"] = (0.2, 15), ["streamer_minutes"] = (0, 7200),
    };

    /// <summary>Whether a median comes within five times of what is usual.</summary>
    public static bool IsConceivable(LogColumn column, double si) =>
        !_usual.TryGetValue(column.Name, out var usual) || (si >= usual.Low / 5 && si <= usual.High * 5);

    private static readonly string[] _codes = ["terrain", "canopy", "measured_by", "base", "aircraft", "spotter"];

    /// <summary>From −50 to +25.</summary>
    public static Evidence Of(LogColumn column, ColumnValues values, IReadOnlyList<MeasureUnit> units)
    {
        if (values.Filled == 0) return new(0, "no values");
        var number = values.NumberShare >= 0.8;
        return column.Kind switch
        {
            ColumnKind.Distance or ColumnKind.Speed or ColumnKind.Duration =>
                number ? Measure(column, values, units) : new(-40, "not numbers"),
            ColumnKind.Bearing when !number => new(-40, "not numbers"),
            ColumnKind.Bearing => values.Range.Low < 0 || values.Range.High > 360 ? new(-50, "outside 0 to 360")
                : values.Range.High > 90 ? new(25, "0 to 360") : new(5, "small for bearings"),
            ColumnKind.Degrees => Degrees(column, values, number),
            ColumnKind.Time => Time(column, values),
            ColumnKind.Date => values.SerialShare >= 0.8 && !values.HasPartDays ? new(25, "a spreadsheet's counts of days")
                : values.DateShare < 0.8 ? new(-40, "no dates")
                : values.ClockShare >= 0.8 ? new(-10, "dates with a time") : new(25, "dates"),
            ColumnKind.Clock => values.DateShare >= 0.8 ? new(-40, "dates") : values.ClockShare >= 0.8 ? new(25, "times of day")
                : values.FigureShare >= 0.8 ? new(25, "times of day in figures") : new(-40, "no times of day"),
            ColumnKind.Whole => number && values.IsWhole && values.Range is { Low: >= 1, High: <= 24 }
                ? new(25, "small whole numbers") : new(-40, "no small whole numbers"),
            ColumnKind.YesNo => YesNoWords(values),
            _ => Text(column, values, number),
        };
    }

    private static Evidence Time(LogColumn column, ColumnValues values)
    {
        if (values.DateShare >= 0.8) return values.ClockShare >= 0.8 ? new(25, "dates with a time") : new(-10, "dates without a time");
        if (values.SerialShare >= 0.8) return values.HasPartDays ? new(25, "a spreadsheet's counts of days and their parts")
            : new(-10, "a spreadsheet's counts of whole days");
        return values.ClockShare >= 0.8 && column == LogColumns.StreamerTime ? new(25, "times of day") : new(-40, "no dates");
    }

    private static Evidence Measure(LogColumn column, ColumnValues values, IReadOnlyList<MeasureUnit> units)
    {
        var signed = column.Name.EndsWith("_east", StringComparison.Ordinal) || column.Name.EndsWith("_north", StringComparison.Ordinal)
            || column == LogColumns.SpotElevation;
        if (values.Range.Low < 0 && !signed) return new(-40, "negative numbers");
        if (units.Count == 0 || !_usual.TryGetValue(column.Name, out var usual)) return new(15, "numbers");
        return units.Any(u => u.ToSi(values.Range.Median) is var si && si >= usual.Low && si <= usual.High)
            ? new(25, "numbers of a usual size") : new(-30, "numbers of an unusual size");
    }

    private static Evidence Degrees(LogColumn column, ColumnValues values, bool number)
    {
        var most = column == LogColumns.Declination ? 40 : column.Name.EndsWith("_lat", StringComparison.Ordinal) ? 90 : 180;
        if (number && (values.Range.Low < -most || values.Range.High > most)) return new(-50, $"beyond {most}°");
        if (column == LogColumns.Declination) return number ? new(25, "small angles") : new(-40, "not numbers");
        if (number) return values.FineShare >= 0.5 ? new(25, "fine decimals, as positions have") : new(-20, "no decimals");
        return values.Distinct.Take(50)
            .Average(v => (most == 90 ? PositionText.ReadLatitude(v) : PositionText.ReadLongitude(v)).Value is null ? 0.0 : 1) >= 0.8
            ? new(20, "written positions") : new(-40, "no positions");
    }

    private static Evidence YesNoWords(ColumnValues values)
    {
        var known = values.Commonest.Where(c => YesNo.Read(c.Key) is not null).Sum(c => c.Value);
        if (known >= 0.6 * values.Filled && values.Distinct.Count <= 6) return new(25, "words for yes and no");
        return values.Distinct.Count <= 3 && values.NumberShare < 0.2 ? new(15, "three words or fewer") : new(-40, "not yes or no");
    }

    private static Evidence Text(LogColumn column, ColumnValues values, bool number)
    {
        if (values.DateShare >= 0.8 && column != LogColumns.Remarks) return new(-40, "dates");
        if (column == LogColumns.Season)
            return number && values.IsWhole && values.Range is { Low: >= 1950, High: <= 2100 } ? new(25, "years") : new(-20, "no years");
        if (_codes.Contains(column.Name))
            return values.Distinct.Count <= 40 && !number
                ? new(20, "few different words") : new(number ? -30 : 0, number ? "numbers" : "many different words");
        if (column == LogColumns.Remarks) return !number && (values.MeanLetters > 10 || values.BlankShare > 0.4)
            ? new(25, "free text") : new(number ? -30 : 0, "short texts");
        if (column == LogColumns.Mission) return values.Distinct.Count < values.Filled ? new(20, "repeated") : new(5, "all different");
        return number && !values.IsWhole ? new(-30, "fractions") : new(15, "texts");
    }
}

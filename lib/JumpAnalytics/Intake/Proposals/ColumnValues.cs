using System.Globalization;
using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>What the values of one column look like, for telling what they may be.</summary>
internal sealed partial class ColumnValues
{
    private readonly Dictionary<string, int> _counts = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<double> _numbers = [];
    private readonly Dictionary<string, int> _units = new(StringComparer.Ordinal);
    private int _dates, _clocks, _letters, _fine, _serials, _partDays, _figures, _fractions, _open;
    private string? _monthFirst, _dayFirst;

    public int Rows { get; private set; }

    public int Filled { get; private set; }

    public double BlankShare => Rows == 0 ? 1 : 1 - ((double)Filled / Rows);

    public double NumberShare => Share(_numbers.Count);

    /// <summary>Share of the values that name a day.</summary>
    public double DateShare => Share(_dates);

    /// <summary>Share of the values that name a time of day.</summary>
    public double ClockShare => Share(_clocks);

    /// <summary>Share of the values with three decimals or more, as positions have.</summary>
    public double FineShare => Share(_fine);

    /// <summary>Share of the values that are a spreadsheet's counts of days.</summary>
    public double SerialShare => Share(_serials);

    /// <summary>Whether some of these counts have a time of day behind their point.</summary>
    public bool HasPartDays => _partDays > 0;

    /// <summary>Share of the values that may be a time of day in three or four figures, or the fraction of a day.</summary>
    public double FigureShare => Math.Max(Share(_figures), Share(_fractions));

    /// <summary>Whether dates leave open which of day and month comes first, and no value, or values of both kinds, show it.</summary>
    public bool IsOrderOpen => _open > 0 && (_monthFirst is null) == (_dayFirst is null);

    /// <summary>What the values show of the order of day and month, in words; null when they leave nothing open.</summary>
    public string? OrderShown => IsOrderOpen ? "day and month may be either way round: say in 'dates' which comes first"
        : _open == 0 && _monthFirst is null && _dayFirst is null ? null
        : _monthFirst is { } month ? $"month first, as {month} shows" : $"day first, as {_dayFirst} shows";

    /// <summary>
    /// The unit, or the north (<c>deg</c>, <c>degm</c>), that stands behind every number, the commonest where there are several; null when
    /// some number has none behind it.
    /// </summary>
    public string? UnitBehind => _units.Count > 0 && _units.Values.Sum() == _numbers.Count ? _units.MaxBy(u => u.Value).Key : null;

    public double MeanLetters => Filled == 0 ? 0 : (double)_letters / Filled;

    public IReadOnlyCollection<string> Distinct => _counts.Keys;

    public bool Holds(string value) => _counts.ContainsKey(value);

    /// <summary>The values by how often they come.</summary>
    public IEnumerable<KeyValuePair<string, int>> Commonest =>
        _counts.OrderByDescending(c => c.Value).ThenBy(c => c.Key, StringComparer.Ordinal);

    /// <summary>Smallest, middle and largest number; slips at both ends, one value in fifty, are passed over.</summary>
    public (double Low, double Median, double High) Range { get; private set; }

    public bool IsWhole { get; private set; }

    public static IReadOnlyList<ColumnValues> Of(ILogTable table)
    {
        var columns = table.Header.Select(_ => new ColumnValues()).ToList();
        foreach (var row in table.Rows().Where(r => !r.IsBlank && NoRecordKind(r, table.Header) is null))
        {
            for (var i = 0; i < columns.Count; i++) columns[i].Take(Field(row, i));
        }
        foreach (var column in columns) column.Settle();
        return columns;
    }

    /// <summary>What kind of row it is when it looks like no record; null for any other.</summary>
    public static string? NoRecordKind(RawRow row, IReadOnlyList<string> header) => NoRecord.KindOf(row, header, [], _ => false);

    /// <summary>A field with a decimal point in place of a comma where the column writes commas.</summary>
    private static string Field(RawRow row, int at) => at >= row.Fields.Length ? ""
        : row.DecimalCommas.Contains(at) ? row.Fields[at].Trim().Replace(',', '.') : row.Fields[at].Trim();

    private void Take(string text)
    {
        Rows++;
        if (text.Length == 0 || text == "NA") return;
        Filled++;
        _letters += text.Length;
        _counts[text] = _counts.GetValueOrDefault(text) + 1;
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number))
        {
            TakeNumber(text, number);
            return;
        }
        if (Behind(text) is var (digits, unit) && double.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out number))
        {
            _numbers.Add(number);
            if (unit.Length > 0) _units[unit] = _units.GetValueOrDefault(unit) + 1;
            return;
        }
        var (date, clock) = DateAndClock.Split(text);
        if (WrittenDates.Shown(date) is var order && order == DayOrder.MonthFirst) _monthFirst ??= date;
        else if (order == DayOrder.DayFirst) _dayFirst ??= date;
        if (WrittenDates.LeavesOpen(date)) _open++;
        if (Day().IsMatch(text) || WrittenDates.Read(date, DayOrder.MonthFirst) is not null) _dates++;
        // A day with midnight behind it has no time of day.
        var time = WrittenClocks.Read(clock, isOf24Hours: true)?.Time;
        if (time is null ? Clock().IsMatch(text) : date.Length == 0 || time != NodaTime.LocalTime.Midnight) _clocks++;
    }

    private void TakeNumber(string text, double number)
    {
        _numbers.Add(number);
        if (text.Length - text.IndexOf('.', StringComparison.Ordinal) > 3 && text.Contains('.', StringComparison.Ordinal)) _fine++;
        if (WrittenDates.Serial(text) is { } days)
        {
            _serials++;
            if (days != Math.Floor(days)) _partDays++;
        }
        if (WrittenClocks.Read(text, isOf24Hours: false) is null) return;
        if (number < 1) _fractions++;
        else _figures++;
    }

    /// <summary>A number and the unit or the north behind it.</summary>
    private static (string Number, string Unit)? Behind(string text)
    {
        foreach (var kind in new[] { ColumnKind.Distance, ColumnKind.Speed, ColumnKind.Duration })
        {
            if (FieldUnit.Of(kind, text) is var (number, unit)) return (number, unit.Suffix);
        }
        return FieldUnit.Bearing(text) is var (degrees, isMagnetic)
            ? (degrees, isMagnetic switch { null => "", true => "degm", _ => "deg" }) : null;
    }

    private void Settle()
    {
        _numbers.Sort();
        if (_numbers.Count == 0) return;
        var slips = _numbers.Count / 50;
        Range = (_numbers[slips], _numbers[_numbers.Count / 2], _numbers[^(slips + 1)]);
        IsWhole = _numbers.Count(n => n == Math.Floor(n)) >= 0.98 * _numbers.Count;
    }

    /// <summary>The values in a few words.</summary>
    public string Describe()
    {
        if (Filled == 0) return "blank throughout";
        var blank = BlankShare >= 0.005 ? $", {Rounding.Percent(BlankShare)} blank" : "";
        if (SerialShare > 0.8)
            return $"a spreadsheet's counts of days, {DayOf(Range.Low)} to {DayOf(Range.High)}" + blank;
        if (NumberShare > 0.5)
        {
            var rest = NumberShare < 0.995 ? $", {Rounding.Percent(1 - NumberShare)} not numbers" : "";
            return string.Create(CultureInfo.InvariantCulture,
                $"numbers {Range.Low:0.###} to {Range.High:0.###}, median {Range.Median:0.###}") + rest + blank;
        }
        if (DateShare > 0.5) return (ClockShare > 0.5 ? "dates with a time" : "dates") + blank;
        if (ClockShare > 0.5) return "times of day" + blank;
        return Rounding.Count(_counts.Count, "different text") + blank;
    }

    private static string DayOf(double serial) => WrittenDates.Read(serial.ToString("R", CultureInfo.InvariantCulture), DayOrder.Unknown)
        is { Date: { } day } ? NodaTime.Text.LocalDatePattern.Iso.Format(day) : "?";

    private double Share(int count) => Filled == 0 ? 0 : (double)count / Filled;

    [GeneratedRegex(@"\d{4}-\d\d?-\d\d?|\b\d\d?[/.-]\d\d?[/.-]\d\d(\d\d)?\b|\b\d\d?[ -]?[A-Za-z]{3}")]
    private static partial Regex Day();

    [GeneratedRegex(@"(?<!\d)\d\d?:\d\d")]
    private static partial Regex Clock();
}

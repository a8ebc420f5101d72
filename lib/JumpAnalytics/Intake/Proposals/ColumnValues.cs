using System.Globalization;
using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>What the values of one column look like, for telling what they may be.</summary>
internal sealed partial class ColumnValues
{
    private readonly Dictionary<string, int> _counts = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<double> _numbers = [];
    private int _dates, _clocks, _letters, _fine;

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
        foreach (var row in table.Rows().Where(r => !r.IsBlank))
        {
            for (var i = 0; i < columns.Count; i++) columns[i].Take(i < row.Fields.Length ? row.Fields[i].Trim() : "");
        }
        foreach (var column in columns) column.Settle();
        return columns;
    }

    private void Take(string text)
    {
        Rows++;
        if (text.Length == 0 || text == "NA") return;
        Filled++;
        _letters += text.Length;
        _counts[text] = _counts.GetValueOrDefault(text) + 1;
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number))
        {
            _numbers.Add(number);
            if (text.Length - text.IndexOf('.', StringComparison.Ordinal) > 3 && text.Contains('.', StringComparison.Ordinal)) _fine++;
            return;
        }
        if (Day().IsMatch(text)) _dates++;
        if (Clock().IsMatch(text)) _clocks++;
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

    private double Share(int count) => Filled == 0 ? 0 : (double)count / Filled;

    [GeneratedRegex(@"\d{4}-\d\d?-\d\d?|\b\d\d?[/.-]\d\d?[/.-]\d\d(\d\d)?\b|\b\d\d?[ -]?[A-Za-z]{3}")]
    private static partial Regex Day();

    [GeneratedRegex(@"(?<!\d)\d\d?:\d\d")]
    private static partial Regex Clock();
}

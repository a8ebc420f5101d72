using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// Reads typed values out of one row. What can't be read is noted: as a refusal of the row when the value is needed,
/// as a value set aside when the row can do without it.
/// </summary>
/// <param name="map">The headers.</param>
/// <param name="row">The row.</param>
/// <param name="times">How the table writes days and times; null leaves open what a value leaves open.</param>
internal sealed partial class RowReader(HeaderMap map, RawRow row, TableTimes? times = null)
{
    /// <summary>Metres, m/s or seconds. Slips such as 1e300 would overflow every sum they are part of.</summary>
    private const double Largest = 1e8;

    public RowSource Source => row.Source;

    private static readonly List<CellProblem> _none = []; // most rows have none of them; never added to
    private List<CellProblem> _refusals = _none, _setAside = _none, _noted = _none;

    public IReadOnlyList<CellProblem> Refusals => _refusals;

    public bool IsRefused => _refusals.Count > 0;

    public IReadOnlyList<CellProblem> SetAside => _setAside;

    /// <summary>Values that are used, with something a reader should know of them.</summary>
    public IReadOnlyList<CellProblem> Noted => _noted;

    private static void Add(ref List<CellProblem> list, CellProblem problem)
    {
        if (list == _none) list = [];
        list.Add(problem);
    }

    /// <summary>Whether a bearing stands under a magnetic header, so that it needs a declination.</summary>
    public bool IsMagnetic(LogColumn column) => Field(column) is { } field
        && FieldUnit.Bearing(field.Text) is { IsMagnetic: { } written } ? written : map.IsMagnetic(column);

    /// <summary>The field of the first filled column of a quantity; null when all are blank.</summary>
    private (BoundColumn Column, string Text)? Field(LogColumn column)
    {
        foreach (var bound in map.For(column))
        {
            if (bound.TextIn(row) is { Length: > 0 } text) return (bound, text);
        }
        return null;
    }

    public bool IsFilled(LogColumn column) => Field(column) is not null;

    /// <summary>Whether both of two quantities are filled; one without the other is refused or set aside.</summary>
    public bool AreFilled(LogColumn first, LogColumn second, string halfKind, bool required = false)
    {
        if (IsFilled(first) == IsFilled(second)) return IsFilled(first);
        var (there, blank) = IsFilled(first) ? (first, second) : (second, first);
        Note(required, HeaderOf(there), ValueOf(there), halfKind, $"has no {HeaderOf(blank)} beside it", "fill both or neither");
        return false;
    }

    /// <summary>Sets a value aside: the row can do without it.</summary>
    public void Leave(LogColumn column, string kind, string reason, string fix) =>
        Note(false, HeaderOf(column), ValueOf(column), kind, reason, fix);

    /// <summary>Tells something of a value that is used.</summary>
    public void Remark(LogColumn column, string kind, string reason, string fix) =>
        Add(ref _noted, new CellProblem(row.Source, HeaderOf(column), ValueOf(column), kind, reason, fix));

    public string HeaderOf(LogColumn column) =>
        Field(column)?.Column.Header ?? map.For(column).FirstOrDefault()?.Header ?? column.Accepted();

    public IEnumerable<string> HeadersOf(LogColumn column) => map.For(column).Select(b => b.Header);

    public string ValueOf(LogColumn column) => Field(column)?.Text ?? "";

    public void Refuse(string column, string value, string kind, string reason, string fix) =>
        Add(ref _refusals, new CellProblem(row.Source, column, value, kind, reason, fix));

    public string? Text(LogColumn column, bool required = false)
    {
        if (Field(column) is { } field) return field.Text;
        if (required) RefuseBlank(column);
        return null;
    }

    /// <summary>Metres, m/s or seconds. With two filled columns of one quantity the values must agree.</summary>
    public double? Measure(LogColumn column, bool required = false, double least = double.NegativeInfinity, bool leastIsAllowed = true)
    {
        double? found = null;
        foreach (var bound in map.For(column))
        {
            var text = bound.TextIn(row);
            if (text.Length == 0) continue;
            var behind = FieldUnit.Of(column.Kind, text);
            if (Number(behind?.Number ?? text, bound.Index) is not { } number)
            {
                Note(required, bound.Header, text, "not a number",
                    "is not a number" + (text.Contains(',', StringComparison.Ordinal) ? " (decimal comma? thousands?)"
                        : row.UnreadPoints.Contains(bound.Index) ? " for certain: its point may part thousands" : ""),
                    "write digits with a decimal point, and nothing for an unknown value");
                return null;
            }
            if (number < least || (number == least && !leastIsAllowed))
            {
                Note(required, bound.Header, text, ProblemKinds.OutOfRange,
                    $"must be {(leastIsAllowed ? "at least" : "more than")} {least.ToString(CultureInfo.InvariantCulture)}",
                    "check the sign and the column it was written in");
                return null;
            }
            var unit = behind?.Unit ?? bound.Unit;
            if (behind is { } said) RemarkUnit(bound, text, said.Unit);
            var value = unit?.ToSi(number) ?? number;
            if (Math.Abs(value) > Largest)
            {
                Note(required, bound.Header, text, ProblemKinds.OutOfRange, "is larger than anything a log can hold",
                    "check the number of digits");
                return null;
            }
            if (found is { } first && Math.Abs(first - value) > 0.01 * Math.Max(Math.Abs(first), Math.Abs(value)))
            {
                Note(required, string.Join(" / ", map.For(column).Select(b => b.Header)), text, "columns disagree",
                    "two columns of the same quantity differ by more than 1 %", "leave one of them blank");
                return null;
            }
            found ??= value;
        }
        if (found is null && required) RefuseBlank(column);
        return found;
    }

    /// <summary>A bearing true; a magnetic one is turned with the declination (east positive), and refused without it.</summary>
    public Bearing? Bearing(LogColumn column, double? declination, bool required = false)
    {
        if (Field(column) is not { } field)
        {
            if (required) RefuseBlank(column);
            return null;
        }
        var behind = FieldUnit.Bearing(field.Text);
        if (Number(behind?.Number ?? field.Text, field.Column.Index) is not { } degrees || degrees < 0 || degrees > 360)
        {
            Note(required, field.Column.Header, field.Text, "not a bearing", "is not a bearing between 0 and 360 degrees",
                "write degrees clockwise from north");
            return null;
        }
        var isMagnetic = behind?.IsMagnetic ?? field.Column.IsMagnetic;
        if (isMagnetic != field.Column.IsMagnetic)
            Remark(column, "north in the field",
                $"states {(isMagnetic ? "magnetic" : "true")} north, which was used in place of its header's",
                "nothing, if the field is right");
        if (!isMagnetic) return JumpAnalytics.Bearing.FromDegrees(degrees);
        if (declination is { } d) return JumpAnalytics.Bearing.FromDegrees(degrees + d);
        Note(required, field.Column.Header, field.Text, "magnetic bearing", "is magnetic and no declination is known for this row",
            "give declination_deg (degrees, east positive), or the position of the spot with a date from 2025 to 2029, "
                + "for which the magnetic model tells it; or give the true bearing");
        return null;
    }

    /// <summary>A unit in the field that is the header's is told, and so is one that takes its place.</summary>
    private void RemarkUnit(BoundColumn bound, string text, MeasureUnit unit) =>
        Add(ref _noted, unit == bound.Unit
            ? new CellProblem(row.Source, bound.Header, text, "unit in the field", $"states its unit, that of its header ({unit})",
                "nothing")
            : new CellProblem(row.Source, bound.Header, text, "another unit in the field",
                $"states {unit}, which was used in place of its header's{(bound.Unit is { } own ? $" {own}" : "")}",
                "nothing, if the field is right"));

    public double? Degrees(LogColumn column, double limit)
    {
        if (Field(column) is not { } field) return null;
        if (Number(field.Text, field.Column.Index) is { } degrees && Math.Abs(degrees) <= limit) return degrees;
        Leave(column, "not an angle", string.Create(CultureInfo.InvariantCulture,
            $"is not a number of degrees between -{limit} and {limit}"), "write decimal degrees, east positive");
        return null;
    }

    public int? Whole(LogColumn column, int least)
    {
        if (Field(column) is not { } field) return null;
        if (int.TryParse(field.Text, NumberStyles.Integer, CultureInfo.InvariantCulture, out var n) && n >= least) return n;
        Note(false, field.Column.Header, field.Text, "not a whole number", $"is not a whole number from {least}",
            "write 1 for the first out");
        return null;
    }

    public bool? YesNo(LogColumn column)
    {
        if (Field(column) is not { } field) return null;
        if (JumpAnalytics.YesNo.Read(field.Text) is { } answer) return answer;
        Note(false, field.Column.Header, field.Text, "not yes or no", "is neither yes nor no", "write yes or no");
        return null;
    }

    private double? Number(string text, int index) => row.UnreadPoints.Contains(index) && DecimalCommas.MayBeThousands(text) ? null
        : double.TryParse(row.DecimalCommas.Contains(index) ? text.Replace(',', '.') : text, NumberStyles.Float,
            CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;

    private void RefuseBlank(LogColumn column) =>
        Refuse(HeaderOf(column), "", "blank", "is blank and the row can't be used without it", "fill it in from the load record");

    private void Note(bool refuse, string column, string value, string kind, string reason, string fix)
    {
        if (refuse) Refuse(column, value, kind, reason, fix);
        else Add(ref _setAside, new CellProblem(row.Source, column, value, kind, reason, fix));
    }
}

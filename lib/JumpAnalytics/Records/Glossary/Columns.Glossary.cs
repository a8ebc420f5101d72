using System.Reflection;

namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        AcceptedHeaders = new("headers", "headers", CellFormat.Text, "Headers that are accepted, with the units a header states."),
        Needed = new("needed", "needed", CellFormat.Text, "Whether a row can do without the column, and what may stand in its place."),
        Label = new("label", "shown as", CellFormat.Text, "Heading of the column for readers."),
        Meaning = new("meaning", "meaning", CellFormat.Text, "What the column holds, with sign and reference.");

    /// <summary>Every column of the glossary.</summary>
    public static IEnumerable<TableColumn> All =>
        typeof(Columns).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => f.GetValue(null)).OfType<TableColumn>();
}

namespace JumpAnalytics.Statistics;

/// <summary>How the cells of a column are shown and written.</summary>
public enum CellFormat
{
    /// <summary>Text as it is.</summary>
    Text,

    /// <summary>A whole number.</summary>
    Count,

    /// <summary>A plain number with two decimals.</summary>
    Number,

    /// <summary>A plain number with four decimals.</summary>
    Precise,

    /// <summary>A share, shown as percent and written as a fraction.</summary>
    Share,

    /// <summary>A probability, shown as percent and never as certain or impossible.</summary>
    Probability,

    /// <summary>A p-value, shown with three decimals and never as zero.</summary>
    PValue,

    /// <summary>A share with its interval (an <see cref="Estimate"/>): three columns in a file.</summary>
    ShareRange,

    /// <summary>A difference of shares with its interval, shown in points.</summary>
    ShareChange,

    /// <summary>A quantity with its interval.</summary>
    Range,

    /// <summary>A signed quantity with its interval.</summary>
    SignedRange,
}

/// <summary>A column of a result's table.</summary>
/// <param name="Name">Name in files: lower case, with the unit as its suffix.</param>
/// <param name="Label">Heading for readers.</param>
/// <param name="Format">How its cells are shown.</param>
/// <param name="Meaning">What the column holds, in one sentence.</param>
[TypeFormatterSource]
public sealed record TableColumn(string Name, string Label, CellFormat Format, string Meaning)
{
    /// <summary>The columns this one becomes in a file: an estimate also has its limits.</summary>
    public IReadOnlyList<string> FileNames =>
        Format >= CellFormat.ShareRange ? [Name, Name + "_low", Name + "_high"] : [Name];
}

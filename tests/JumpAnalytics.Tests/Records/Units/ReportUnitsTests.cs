using System.Text.RegularExpressions;

namespace JumpAnalytics.Tests;

public sealed partial class ReportUnitsTests
{
    [Theory]
    [InlineData("yd", "ft", "fps", 16.7)]
    [InlineData("ft", "ft", "fps", 16.7)]
    [InlineData("ch", "ft", "fps", 16.7)]
    [InlineData("m", "m", "mps", 5.09016)]
    [InlineData("km", "m", "mps", 5.09016)]
    public void Heights_and_rates_of_descent_have_units_of_their_own(string distance, string height, string descent, double shown)
    {
        var units = ReportUnits.Of(distance, "mph");
        Assert.Equal((height, descent), (units.Height.Suffix, units.Descent.Suffix));
        Close.Relative(shown, units.Descent.FromSi(16.7 * 0.3048), 1e-9);
    }

    /// <summary>The pages of the demo season, which are in yards and miles per hour.</summary>
    [Fact]
    public void The_pages_use_one_unit_for_a_quantity_and_one_way_to_write_a_count()
    {
        var pages = Directory.GetFiles(Path.Combine(ReferenceFiles.Root, "tests", "reference", "golden-pages"), "*.txt");
        Assert.True(pages.Length >= 5);
        var found = pages.SelectMany(p => File.ReadLines(p).Index().Where(l => Wrong().IsMatch(l.Item))
            .Select(l => $"{Path.GetFileName(p)}:{l.Index + 1}: {l.Item}"));
        Assert.Empty(found);
    }

    [GeneratedRegex(@"height above ground \((yd|m)\)|streamers from \(yd\)|reach down to \(yd\)|descent rate \(mph\)|metre long|metre short"
        + @"|mph at \d+ yd|from \d+ yd or the exit height|mph at sea level"
        + @"|(?<![-\d,.])[1-9]\d{3,} (hits?|miss(es)?|landings?|missions?|passes|rows?|points?)\b|\bof (?!20\d\d)[1-9]\d{3,} ")]
    private static partial Regex Wrong();
}

using System.Text.RegularExpressions;

namespace JumpAnalytics.Tests;

/// <summary>The statistics know points, clusters and raters; what these are called is the trade's business.</summary>
public sealed partial class StatisticsWordsTests
{
    private static readonly HashSet<string> _trade = new(
        [
            "mission", "landing", "miss", "misses", "jumper", "drop", "spot", "spotter", "drift", "hit", "canopy", "canopies",
            "wind", "terrain", "stick", "streamer", "exit", "downwind", "season", "fire", "parachute",
        ],
        StringComparer.OrdinalIgnoreCase);

    [Fact]
    public void No_source_file_of_the_statistics_has_a_word_of_the_trade()
    {
        var files = SourceFiles.Below(Path.Combine(SourceFiles.Lib, "JumpAnalytics.Statistics"), "*.cs").ToList();
        Assert.True(files.Count > 100);
        Assert.Empty(files.SelectMany(f => File.ReadLines(f)
            .SelectMany((line, i) => TradeWords(line).Select(w => $"{Path.GetFileName(f)} {i + 1}: {w}"))));
    }

    [Theory]
    [InlineData("/// <summary>Misses of one mission.</summary>", "Misses", "mission")]
    [InlineData("private readonly double[] _dropWinds;", "drop", "Winds")]
    [InlineData("public int LandingsOf(int n) => n; // XMLDrift", "Landings", "Drift")]
    [InlineData("namespace JumpAnalytics.Statistics; // a window, a hitch, the dropping, landingless, missed, exited")]
    public void Whole_words_and_parts_of_names_are_found(string line, params string[] words) => Assert.Equal(words, TradeWords(line));

    private static IEnumerable<string> TradeWords(string line) =>
        Word().Matches(line).Select(m => m.Value).Where(w => _trade.Contains(w) || (w.EndsWith('s') && _trade.Contains(w[..^1])));

    /// <summary>Words, and the parts of names in camel case; capitals in a row are one part.</summary>
    [GeneratedRegex(@"\p{Lu}+(?!\p{Ll})|\p{Lu}?\p{Ll}+")]
    private static partial Regex Word();
}

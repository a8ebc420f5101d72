using System.Text.RegularExpressions;

namespace JumpAnalytics.Tests.Docs;

/// <summary>The documents are short, plain, and name only what is there.</summary>
public sealed partial class DocumentTests
{
    /// <summary>Words of no text of ours, and the one that says it instead.</summary>
    private static readonly (string Word, string Instead)[] _banned =
    [
        ("told from", "clearly different from"), ("told apart", "separated"), ("parted", "separated"), ("stands(?! alone)", "is"),
        ("hangs on", "depends on"), ("be had", "there is"), ("the reader's", "yours"), ("none of the log's", "none"),
        ("hit rate", "landing rate"),
    ];

    /// <summary>Made by a build or a run and not kept in git.</summary>
    private static readonly string[] _made = ["lib/notebook-bin"];

    /// <summary>What the sources name, and the folders they are in.</summary>
    private static readonly Lazy<HashSet<string>> _knownNames = new(() =>
        [.. new[] { SourceFiles.Lib, Documents.At("tests") }.SelectMany(f => SourceFiles.Below(f, "*.cs"))
            .SelectMany(f => Identifier().Matches(File.ReadAllText(f)).Select(m => m.Value).Concat(f.Split(Path.DirectorySeparatorChar)))]);

    public static TheoryData<string> All => [.. Documents.All];

    [Theory]
    [InlineData("README.md", 7_000)]
    [InlineData("DEVELOPERS.md", 14_000)]
    public void A_newcomer_reads_it_to_its_end(string document, int bytes) =>
        Assert.InRange(new FileInfo(Documents.At(document)).Length, 1, bytes);

    [Theory]
    [MemberData(nameof(All))]
    public void Every_link_leads_somewhere(string document)
    {
        var folder = Path.GetDirectoryName(Documents.At(document))!;
        var links = Link().Matches(Documents.Text(document)).Select(m => m.Groups[1].Value).ToList();
        Assert.NotEmpty(links);
        foreach (var link in links)
        {
            var (path, heading) = link.Split('#') switch { [var p, var h] => (p, h), var parts => (parts[0], null) };
            var target = path.Length == 0 ? Documents.At(document) : Path.GetFullPath(Path.Combine(folder, path));
            Assert.True(File.Exists(target), $"{document}: {link}");
            if (heading is not null) Assert.Contains(heading, Headings(File.ReadAllText(target)));
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Every_path_that_is_named_is_there(string document)
    {
        var paths = PathName().Matches(Documents.Text(document)).Select(m => m.Value).Distinct().Except(_made).ToList();
        Assert.NotEmpty(paths);
        Assert.All(paths, p => Assert.True(Path.Exists(Documents.At(p)), $"{document}: {p}"));
    }

    /// <summary>Types, members and rooms by their names: a word in backticks that looks like one is one.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void Every_name_of_the_code_is_there(string document)
    {
        var known = _knownNames.Value;
        var names = Documents.Spans(document).Where(s => !Documents.IsCommand(s) && !s.StartsWith('-'))
            .SelectMany(s => CodeName().Matches(s)).Select(m => m.Value).Distinct();
        Assert.All(names, n => Assert.True(known.Contains(n), $"{document}: {n}"));
    }

    [Theory]
    [MemberData(nameof(All))]
    [InlineData("data-demo/README.md")]
    public void The_words_are_plain(string document) => AssertPlain(document, Documents.Text(document));

    /// <summary>The help of the command line: its own descriptions, and the settings of each notebook.</summary>
    [Fact]
    public void The_words_of_the_help_are_plain()
    {
        var runner = SourceFiles.Below(Path.Combine(SourceFiles.Lib, "JumpAnalytics.Runner"), "*.cs").ToList();
        Assert.NotEmpty(runner);
        foreach (var file in runner) AssertPlain(file, Joined(Quoted(), file));
        foreach (var file in Directory.GetFiles(Documents.At("notebooks"), "*.ipynb")) AssertPlain(file, Joined(Setting(), file));

        static string Joined(Regex pattern, string file) =>
            string.Join('\n', pattern.Matches(File.ReadAllText(file)).Select(m => m.Groups["text"].Value));
    }

    [Fact]
    public void The_guide_names_every_column_of_the_log()
    {
        var rows = Documents.Text("notebooks/README.md").Split('\n');
        AssertNamed(LogColumns.Drops, rows.Single(r => r.StartsWith("| drops:", StringComparison.Ordinal)));
        AssertNamed(LogColumns.Landings, rows.Single(r => r.StartsWith("| landings:", StringComparison.Ordinal)));

        static void AssertNamed(IReadOnlyList<LogColumn> columns, string row)
        {
            var named = Span().Matches(row).Select(m => m.Groups[1].Value).ToList();
            Assert.All(columns, c => Assert.Contains(named, n => n == c.Name || n == c.Name + "_*" || c.Headers().Any(h => h.Text == n)));
            Assert.Equal(columns.Count, named.Count);
        }
    }

    [Fact]
    public void The_developers_guide_names_every_room()
    {
        var text = Documents.Text("DEVELOPERS.md");
        List<string> wings = ["JumpAnalytics.Statistics", .. Rooms("JumpAnalytics").Select(r => $"JumpAnalytics/{r}")];
        Assert.Equal(6, wings.Count);
        foreach (var wing in wings)
        {
            var row = Assert.Single(text.Split('\n'), l => l.StartsWith($"| `lib/{wing}`", StringComparison.Ordinal));
            Assert.All(Rooms(wing), room => Assert.Contains($"`{room}`", row));
        }

        static List<string> Rooms(string wing) => [.. Directory.GetDirectories(Documents.At($"lib/{wing}"))
            .Select(f => Path.GetFileName(f)).Where(f => f is not ("bin" or "obj"))];
    }

    private static void AssertPlain(string name, string text)
    {
        foreach (var (word, instead) in _banned)
        {
            var found = Regex.Match(text, $@"[^\n]{{0,40}}\b{word}\b[^\n]{{0,40}}", RegexOptions.IgnoreCase);
            Assert.False(found.Success, $"{Path.GetFileName(name)}: write '{instead}' in: {found.Value}");
        }
    }

    /// <summary>Anchors of the headings, as the pages of a repository make them.</summary>
    private static IEnumerable<string> Headings(string text) =>
        Heading().Matches(text).Select(m => NoAnchor().Replace(m.Groups[1].Value.ToLowerInvariant(), "").Replace(' ', '-'));

    [GeneratedRegex(@"\]\((?!https?:)([^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"(?<![\w./-])(lib|tests|notebooks|data-demo|\.ci)/[\w./-]*\w")]
    private static partial Regex PathName();

    [GeneratedRegex(@"^#+ (.+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();

    [GeneratedRegex(@"[^\w -]")]
    private static partial Regex NoAnchor();

    [GeneratedRegex(@"(?<![\w/""~-])[A-Z][a-z]+\w*(?=[(<.]|$)")]
    private static partial Regex CodeName();

    [GeneratedRegex("`([^`\n]+)`")]
    private static partial Regex Span();

    [GeneratedRegex(@"\b[A-Z]\w+")]
    private static partial Regex Identifier();

    [GeneratedRegex("\"(?<text>(?:[^\"\\\\\n]|\\\\.)*)\"")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"^\s*""var @?\w+ = .*; // (?<text>.*?)(\\n)?"",?$", RegexOptions.Multiline)]
    private static partial Regex Setting();
}

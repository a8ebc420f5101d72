using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>Refused rows and values set aside as a screen lets them be seen.</summary>
internal sealed partial class ScreenedIntake
{
    private readonly LogScreen _screen;
    private readonly Dictionary<string, FileIntake> _files;
    private readonly HashSet<string> _people;

    public ScreenedIntake(JumpLog log, LogScreen screen)
    {
        _screen = screen;
        _files = log.Intake.Files.DistinctBy(f => f.File).ToDictionary(f => f.File);
        _people = screen.ShownPerson is null ? [] : PeopleOf(log);
    }

    /// <summary>The headers nobody knows become their place: one may itself be a name.</summary>
    public static FileIntake Of(FileIntake file)
    {
        var header = file.Header.Select((h, i) => QuantityOf(file, h) is null ? $"column {i + 1}" : h).ToList();
        return file with { Header = header, UnknownColumns =
            [.. header.Zip(file.Header).Where(h => h.First != h.Second).Select(h => new UnknownColumn(h.First, null))] };
    }

    public QuarantinedRow Of(QuarantinedRow row)
    {
        var file = _files[row.Source.File];
        var fields = HasShapeTrouble(row) ? row.Fields.Select(f => _screen.Shown(null, f))
            : row.Fields.Select((f, i) => Shown(i < file.Header.Count ? QuantityOf(file, file.Header[i]) : null, f));
        return row with { Fields = [.. fields], Problems = [.. row.Problems.Select(Of)] };
    }

    public CellProblem Of(CellProblem problem)
    {
        var file = _files[problem.Source.File];
        var quantities = problem.Column.Split(" / ").Select(c => QuantityOf(file, c)).ToList();
        // A value that lies between several columns is shown only when it could be shown under each.
        var values = quantities.Select(q => Shown(q, problem.Value)).Distinct().ToList();
        return problem with { Value = values.Count == 1 ? values[0] : LogScreen.Withheld, Reason = WithoutPeople(problem.Reason),
            Try = WithoutPeople(problem.Try) };
    }

    /// <summary>The words of a part; withheld as a whole where they may tell of people or of a field that is hidden.</summary>
    public string OfPart(string words)
    {
        string[] hidden = [LogColumns.Spotter.Name, LogColumns.Jumper.Name, LogColumns.Remarks.Name,
            LogColumns.Injured.Name, LogColumns.Track.Name];
        return Array.Exists(hidden, h => words.Contains(h, StringComparison.OrdinalIgnoreCase)) || WithoutPeople(words) != words
            ? LogScreen.Withheld : words;
    }

    /// <summary>A person's code may also stand where it does not belong.</summary>
    private string Shown(string? quantity, string text)
    {
        var shown = _screen.Shown(quantity, text);
        return shown == text && Word().Matches(text).Any(w => IsPerson(w.Value)) ? LogScreen.Withheld : shown;
    }

    private string WithoutPeople(string text) =>
        _people.Count == 0 ? text : Word().Replace(text, w => IsPerson(w.Value) ? LogScreen.Withheld : w.Value);

    private bool IsPerson(string word) => word.Any(char.IsLetter) && _people.Contains(word.ToUpperInvariant());

    private static bool HasShapeTrouble(QuarantinedRow row) => row.Problems.Any(p => p.Column == "(row)");

    private static string? QuantityOf(FileIntake file, string header) => file.Columns.FirstOrDefault(c => c.Header == header)?.Quantity;

    /// <summary>The words of every code of the log, accepted rows and refused ones, without those of one letter.</summary>
    private static HashSet<string> PeopleOf(JumpLog log)
    {
        var codes = log.Drops.Select(d => d.Spotter).Concat(log.Landings.Select(l => l.Jumper)).ToList();
        foreach (var row in log.Intake.Quarantine.Where(r => !HasShapeTrouble(r)))
        {
            var file = log.Intake.Files.First(f => f.File == row.Source.File);
            codes.AddRange(row.Fields.Where((_, i) => i < file.Header.Count && QuantityOf(file, file.Header[i]) is { } q
                && (q == LogColumns.Spotter.Name || q == LogColumns.Jumper.Name)));
        }
        return [.. codes.OfType<string>().SelectMany(c => Word().Matches(c)).Select(w => w.Value.ToUpperInvariant())
            .Where(w => w.Length > 1)];
    }

    [GeneratedRegex(@"[\p{L}\p{N}]+")]
    private static partial Regex Word();
}

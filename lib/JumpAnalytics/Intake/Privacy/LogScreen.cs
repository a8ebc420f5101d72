using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>
/// What a log shows of people and of sensitive fields; applied in this one place to records, refused rows and values set aside.
/// </summary>
internal sealed partial record LogScreen
{
    public const string Withheld = "[withheld]";

    /// <summary>What stands for a person in the records, null for nobody; no function when people stay.</summary>
    public Func<string, string?>? Person { get; init; }

    /// <summary>What stands for a person in a refused row or a value set aside; null when people stay.</summary>
    public Func<string, string>? ShownPerson { get; init; }

    public bool HidesRemarks { get; init; }

    public bool HidesInjuries { get; init; }

    public bool HidesTracks { get; init; }

    /// <summary>That the screened log is for sharing; null when it is not.</summary>
    public LogSharing? Sharing { get; init; }

    private static readonly Dictionary<string, ColumnKind> _kinds =
        LogColumns.Drops.Concat(LogColumns.Landings).Distinct().ToDictionary(c => c.Name, c => c.Kind);

    public static JumpLog Apply(JumpLog log, LogScreen screen)
    {
        if (log.Part is { } part) return log.PartOf(Apply(log.Whole, screen), new ScreenedIntake(log.Whole, screen).OfPart(part));
        var drops = log.Drops.ToDictionary(d => d, screen.Of, (IEqualityComparer<Drop>)ReferenceEqualityComparer.Instance);
        var text = new ScreenedIntake(log, screen);
        return new JumpLog(log.Name, log.Notice, [.. log.Drops.Select(d => drops[d])],
            [.. log.Landings.Select(l => screen.Of(l, drops[l.Drop]))],
            new IntakeReport
            {
                HoldsRowsAsWritten = false, Sharing = screen.Sharing,
                Files = [.. log.Intake.Files.Select(ScreenedIntake.Of)], Quarantine = [.. log.Intake.Quarantine.Select(text.Of)],
                SetAside = [.. log.Intake.SetAside.Select(text.Of)], Noted = [.. log.Intake.Noted.Select(text.Of)],
                NoRecords = [.. log.Intake.NoRecords.Select(text.Of)],
                DropsWithoutLandings = [.. log.Intake.DropsWithoutLandings.Select(d => drops[d])],
                TerrainsRespelt = log.Intake.TerrainsRespelt,
                MapNotes = log.Intake.MapNotes, Remarks = log.Intake.Remarks,
            })
        {
            Sharing = screen.Sharing,
        };
    }

    /// <summary>What may be seen of a text that stands under a quantity of the log; null is a header nobody knows.</summary>
    public string Shown(string? quantity, string text)
    {
        if (string.IsNullOrWhiteSpace(text)) return text;
        if (quantity is null || !_kinds.TryGetValue(quantity, out var kind) || IsHidden(quantity)) return Withheld;
        if (quantity == LogColumns.Spotter.Name || quantity == LogColumns.Jumper.Name) return ShownPerson?.Invoke(text) ?? text;
        return kind != ColumnKind.Text && Words().IsMatch(text) ? Withheld : text;
    }

    private bool IsHidden(string quantity) => (HidesRemarks && quantity == LogColumns.Remarks.Name)
        || (HidesInjuries && quantity == LogColumns.Injured.Name) || (HidesTracks && quantity == LogColumns.Track.Name);

    private Drop Of(Drop drop) => drop with { Spotter = Changed(drop.Spotter), Remarks = HidesRemarks ? null : drop.Remarks };

    private Landing Of(Landing landing, Drop drop) => landing with
    {
        Drop = drop, Jumper = Changed(landing.Jumper), Remarks = HidesRemarks ? null : landing.Remarks,
        Injured = HidesInjuries ? null : landing.Injured, Track = HidesTracks ? null : landing.Track,
    };

    private string? Changed(string? person) => person is null || Person is null ? person : Person(person);

    /// <summary>Two letters in a row: more than the T and Z of a time, the E of a number or the N and W of a place.</summary>
    [GeneratedRegex(@"\p{L}\p{L}")]
    private static partial Regex Words();
}

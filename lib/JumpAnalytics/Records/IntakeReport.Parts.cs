namespace JumpAnalytics;

public sealed partial class IntakeReport
{
    /// <summary>Ids of drops, read or refused, that are known to lie outside of the part; empty for the whole.</summary>
    private IReadOnlySet<string> OutsideDrops { get; init; } = new HashSet<string>();

    /// <summary>
    /// Quarantined rows that may belong to the part: all but those that name a drop outside of it. Of the whole, every one.
    /// </summary>
    internal IEnumerable<QuarantinedRow> QuarantineOfPart => OutsideDrops.Count == 0 ? Quarantine
        : Quarantine.Where(q => DropIdOf(q) is not { } id || !OutsideDrops.Contains(id));

    /// <summary>
    /// The account for a part of the log: what was read stays as it was, since the part is cut after reading; a remark says so.
    /// </summary>
    internal IntakeReport OfPart(string part, JumpLog whole, IReadOnlyList<Drop> drops, IReadOnlyList<Landing> landings)
    {
        var (all, kept) = (whole.Intake, drops.ToHashSet<Drop>(ReferenceEqualityComparer.Instance));
        return new IntakeReport
        {
            HoldsRowsAsWritten = all.HoldsRowsAsWritten, Files = all.Files, Quarantine = all.Quarantine, SetAside = all.SetAside, Noted = all.Noted,
            TerrainsRespelt = all.TerrainsRespelt, MapNotes = all.MapNotes, DropsWithoutLandings = [.. all.DropsWithoutLandings.Where(kept.Contains)],
            OutsideDrops = Outside(whole, kept),
            Remarks =
            [
                $"This is a part of the log, where {part}: {Rounding.Count(drops.Count)} of {Rounding.Count(whole.Drops.Count, "drop")} and "
                    + $"{Rounding.Count(landings.Count)} of {Rounding.Count(whole.Landings.Count, "landing")}. Rows read and refused are those of all files.",
                .. all.Remarks,
            ],
        };
    }

    /// <summary>The drops that were cut off, and refused ones of a base that has no drop in the part.</summary>
    private static HashSet<string> Outside(JumpLog whole, HashSet<Drop> kept)
    {
        var outside = whole.Drops.Where(d => !kept.Contains(d)).Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
        var bases = whole.Drops.Select(d => d.Base).OfType<string>().Except(kept.Select(d => d.Base).OfType<string>()).ToHashSet();
        var refused = whole.Intake.Quarantine.Where(q => whole.Intake.FieldOf(q, "base") is { } b && bases.Contains(b));
        outside.UnionWith(refused.Select(whole.Intake.DropIdOf).OfType<string>().Where(id => kept.All(d => d.Id != id)));
        return outside;
    }

    private string? DropIdOf(QuarantinedRow row) => FieldOf(row, "drop_id");

    /// <summary>What a refused row holds of a quantity of the log; null where it holds nothing.</summary>
    private string? FieldOf(QuarantinedRow row, string quantity)
    {
        var file = Files.FirstOrDefault(f => f.File == row.Source.Table);
        var header = file?.Columns.FirstOrDefault(c => c.Quantity == quantity)?.Header;
        var at = header is null ? -1 : file!.Header.ToList().IndexOf(header);
        return at >= 0 && at < row.Fields.Count && row.Fields[at].Trim() is { Length: > 0 } text ? text : null;
    }
}

namespace JumpAnalytics;

public sealed partial class IntakeReport
{
    /// <summary>Ids of drops, read or refused, that are known to lie outside of the part; empty for the whole.</summary>
    private HashSet<string> _outsideDrops = [];

    /// <summary>The account of the whole log, where this is that of a part.</summary>
    private IntakeReport? _whole;

    /// <summary>
    /// Quarantined rows that may belong to the part: all but those that name a drop outside of it. Of the whole, every one.
    /// </summary>
    internal IEnumerable<QuarantinedRow> QuarantineOfPart => _outsideDrops.Count == 0 ? _quarantine
        : _quarantine.Where(q => DropIdOf(q) is not { } id || !_outsideDrops.Contains(id));

    /// <summary>
    /// The account for a part of the log: what was read stays as it was, since the part is cut after reading; a remark says so.
    /// </summary>
    /// <param name="part">The part in words.</param>
    /// <param name="all">The drops of the whole log.</param>
    /// <param name="drops">The drops of the part.</param>
    /// <param name="landings">The landings of the part.</param>
    /// <param name="allLandings">How many landings the whole has.</param>
    internal IntakeReport OfPart(string part, IReadOnlyList<Drop> all, IReadOnlyList<Drop> drops,
        IReadOnlyList<Landing> landings, int allLandings)
    {
        var kept = drops.ToHashSet<Drop>(ReferenceEqualityComparer.Instance);
        var whole = _whole ?? this;
        var size = Sharing is not null ? "" : $": {Rounding.Count(drops.Count)} of {Rounding.Count(all.Count, "drop")} and "
            + $"{Rounding.Count(landings.Count)} of {Rounding.Count(allLandings, "landing")}";
        return new IntakeReport
        {
            HoldsRowsAsWritten = HoldsRowsAsWritten, Sharing = Sharing, Files = Files, Quarantine = _quarantine,
            SetAside = _setAside, Noted = _noted, NoRecords = _noRecords,
            TerrainsRespelt = TerrainsRespelt, MapNotes = MapNotes,
            DropsWithoutLandings = [.. whole._dropsWithoutLandings.Where(kept.Contains)],
            Remarks = [$"This is a part of the log, where {part}{size}. Rows read and refused are those of all files.", .. whole.Remarks],
            _outsideDrops = Outside(all, kept), _whole = whole,
        };
    }

    /// <summary>The drops that were cut off, and refused ones of a base that has no drop in the part.</summary>
    private HashSet<string> Outside(IReadOnlyList<Drop> all, HashSet<Drop> kept)
    {
        var outside = all.Where(d => !kept.Contains(d)).Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
        var inside = kept.Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
        var bases = all.Select(d => d.Base).OfType<string>().Except(kept.Select(d => d.Base).OfType<string>()).ToHashSet();
        var refused = _quarantine.Where(q => FieldOf(q, "base") is { } b && bases.Contains(b));
        outside.UnionWith(refused.Select(DropIdOf).OfType<string>().Where(id => !inside.Contains(id)));
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

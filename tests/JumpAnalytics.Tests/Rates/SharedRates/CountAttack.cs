namespace JumpAnalytics.Tests;

/// <summary>A complete search for another table of counts that shows the same as a shared one.</summary>
internal sealed class CountAttack
{
    private readonly List<(int[] Cells, int Sum)> _sums = [];
    private readonly int[] _found;
    private readonly int?[] _known;
    private readonly int _most;
    private readonly int[] _asked;
    private readonly int _true;

    private CountAttack(RateTable rates, RateTable shared, CellRate cell, Func<CellRate, int> count)
    {
        var inner = rates.Cells.Where(c => !c.IsMargin).ToList();
        _found = new int[inner.Count];
        _known = [.. inner.Select(c => shared.Cell(c.Cell).IsWithheld ? (int?)null : count(c))];
        foreach (var margin in rates.Cells.Where(c => c.IsMargin && !shared.Cell(c.Cell).IsWithheld))
            _sums.Add((Of(margin), count(margin)));
        (_asked, _true, _most) = (Of(cell), count(cell), _sums.Select(s => s.Sum).DefaultIfEmpty(count(cell) + 1).Max());

        int[] Of(CellRate c) => [.. inner.Index().Where(i => c.Cell.Holds(i.Item.Cell)).Select(i => i.Index)];
    }

    /// <summary>Whether a table of whole counts, none negative, shows the same and has another count in a cell or margin.</summary>
    public static bool CanBeOther(RateTable rates, RateTable shared, CellRate cell, Func<CellRate, int> count) =>
        new CountAttack(rates, shared, cell, count).Search(0);

    private bool Search(int at)
    {
        foreach (var (cells, sum) in _sums)
        {
            var (filled, complete) = (0, true);
            foreach (var c in cells)
            {
                if (c < at) filled += _found[c];
                else complete = false;
            }
            if (filled > sum || (complete && filled != sum)) return false;
        }
        if (at == _found.Length) return _asked.Sum(c => _found[c]) != _true;
        var (low, high) = _known[at] is { } known ? (known, known) : (0, _most);
        for (_found[at] = low; _found[at] <= high; _found[at]++)
        {
            if (Search(at + 1)) return true;
        }
        return false;
    }
}

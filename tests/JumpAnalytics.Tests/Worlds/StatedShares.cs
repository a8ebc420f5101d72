using System.Collections.Concurrent;
using System.Globalization;

namespace JumpAnalytics.Tests.Worlds;

/// <summary>How often things that were stated came true, counted over simulated seasons.</summary>
internal sealed class StatedShares
{
    private readonly ConcurrentDictionary<string, Line> _lines = new(StringComparer.Ordinal);

    /// <summary>What was counted, in no order.</summary>
    public IEnumerable<Line> Lines => _lines.Values;

    /// <summary>What was counted under a name; null where nothing was.</summary>
    public Line? Of(string what) => _lines.GetValueOrDefault(what);

    /// <summary>Counts one season.</summary>
    /// <param name="what">What is stated.</param>
    /// <param name="stated">The share that it is stated to come true in.</param>
    /// <param name="came">Each of its cases in this season; none counts for nothing.</param>
    public void Count(string what, double stated, IEnumerable<bool> came)
    {
        var cases = came.ToList();
        if (cases.Count > 0) _lines.GetOrAdd(what, w => new(w)).Add(stated, cases.Count(c => c), cases.Count);
    }

    public void Count(string what, double stated, bool came) => Count(what, stated, [came]);

    /// <summary>A line of the table.</summary>
    /// <param name="what">What is stated.</param>
    internal sealed class Line(string what)
    {
        private readonly List<(double Stated, int Came, int Of)> _seasons = [];

        public string What { get; } = what;

        public double Stated => _seasons.Sum(s => s.Stated * s.Of) / _seasons.Sum(s => s.Of);

        public double Share => (double)_seasons.Sum(s => s.Came) / _seasons.Sum(s => s.Of);

        /// <summary>Standard error between seasons; where all cases went one way that of one case that went the other.</summary>
        public double Error => Share is > 0 and < 1
            ? Math.Sqrt(_seasons.Sum(s => Math.Pow(s.Came - (Share * s.Of), 2))) / _seasons.Sum(s => s.Of)
            : 1.0 / (_seasons.Count + 1);

        public void Add(double stated, int came, int of)
        {
            lock (_seasons) _seasons.Add((stated, came, of));
        }

        /// <summary>As a cell of a table, in %.</summary>
        public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{100 * Share:0} ± {100 * Error:0}");
    }
}

namespace JumpAnalytics;

/// <summary>
/// Counts, means and sums of squares about them of a block of simulated misses; blocks are put together in their order, so that the
/// number of threads changes nothing.
/// </summary>
/// <remarks>Chan, Golub and LeVeque (1983, American Statistician 37:242-247).</remarks>
internal readonly record struct BlockMoments(int Count, int Hits, double X, double Y, double XX, double YY, double XY)
{
    /// <summary>The moments of a block; fills in the distances from the spot.</summary>
    public static BlockMoments Of(ReadOnlySpan<double> downwind, ReadOnlySpan<double> right, Span<double> distances, double targetRadius)
    {
        var (x, y, hits) = (0.0, 0.0, 0);
        for (var i = 0; i < downwind.Length; i++)
        {
            (x, y) = (x + downwind[i], y + right[i]);
            distances[i] = Math.Sqrt(downwind[i] * downwind[i] + right[i] * right[i]); // metres on the ground: no square can overflow
            if (Landing.IsWithin(distances[i], targetRadius)) hits++;
        }
        (x, y) = (x / downwind.Length, y / downwind.Length);
        var (xx, yy, xy) = (0.0, 0.0, 0.0);
        for (var i = 0; i < downwind.Length; i++)
        {
            var (u, v) = (downwind[i] - x, right[i] - y);
            (xx, yy, xy) = (xx + u * u, yy + v * v, xy + u * v);
        }
        return new(downwind.Length, hits, x, y, xx, yy, xy);
    }

    /// <summary>Both blocks together.</summary>
    public BlockMoments With(BlockMoments other)
    {
        var (n, u, v) = ((double)Count + other.Count, other.X - X, other.Y - Y);
        var (share, both) = (other.Count / n, Count * (other.Count / n));
        return new(Count + other.Count, Hits + other.Hits, X + u * share, Y + v * share, XX + other.XX + u * u * both,
            YY + other.YY + v * v * both, XY + other.XY + u * v * both);
    }
}

namespace JumpAnalytics.Statistics;

/// <summary>An orthonormal basis of vectors given one by one (Gram and Schmidt, each vector twice).</summary>
internal sealed class Basis
{
    private const double Negligible = 1e-9;

    private readonly List<double[]> _axes = [];

    /// <summary>Takes a vector in; false when it follows from those before.</summary>
    public bool Add(double[] vector)
    {
        if (Rest(vector) is not { } axis) return false;
        _axes.Add(axis);
        return true;
    }

    /// <summary>Whether a vector is a combination of those taken in.</summary>
    public bool Holds(double[] vector) => Rest(vector) is null;

    private double[]? Rest(double[] vector)
    {
        var rest = (double[])vector.Clone();
        for (var pass = 0; pass < 2; pass++)
        {
            foreach (var axis in _axes)
            {
                var along = 0.0;
                for (var i = 0; i < rest.Length; i++) along += axis[i] * rest[i];
                for (var i = 0; i < rest.Length; i++) rest[i] -= along * axis[i];
            }
        }
        var length = Math.Sqrt(rest.Sum(x => x * x));
        return length <= Negligible * Math.Sqrt(vector.Sum(x => x * x)) ? null : [.. rest.Select(x => x / length)];
    }
}

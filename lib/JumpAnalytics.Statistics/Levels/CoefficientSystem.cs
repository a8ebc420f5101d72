using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>The coefficients of a two-level model at one choice of covariances.</summary>
/// <param name="Values">Raters' effects and the mean (rows) for each axis (columns).</param>
/// <param name="Errors">Covariance of their errors, rows by axis and then coefficient.</param>
/// <param name="Integrated">
/// Covariance of those coefficients that the likelihood integrates over: all when it is restricted, else the raters'; null when none.
/// </param>
/// <param name="LogDeterminant">Logarithm of the determinant that they add to the deviance.</param>
/// <param name="Penalty">Sum of squares of the raters' effects in units of their covariance's factor.</param>
/// <param name="ByRater">Derivative of the deviance by the covariance between raters; null without them.</param>
/// <param name="RaterSize">Size of the terms that cancel in it.</param>
internal sealed record SolvedCoefficients(Matrix<double> Values, double[] Errors, double[]? Integrated, double LogDeterminant,
    double Penalty, Matrix<double>? ByRater, double RaterSize);

/// <summary>
/// The system that raters' effects and the mean solve together (Henderson's mixed-model equations, the clusters eliminated). Raters'
/// effects are a factor of their covariance times effects of unit variance, so that a singular covariance is as good as any.
/// </summary>
internal sealed class CoefficientSystem(int axes, int columns, int raters)
{
    private readonly int _size = axes * columns;
    private readonly double[] _system = new double[axes * columns * axes * columns];
    private readonly double[] _right = new double[axes * columns];

    /// <summary>Adds what points of one precision say.</summary>
    public void Add(Matrix<double> precision, Crossproducts sums)
    {
        var of = sums.Design.AsColumnMajorArray();
        for (var a = 0; a < axes; a++)
        {
            for (var b = 0; b < axes; b++)
            {
                var weight = precision.At(a, b);
                for (var k = 0; k < columns; k++)
                {
                    _right[a * columns + k] += weight * sums.DesignAxes.At(k, b);
                    DenseKernels.Add(weight, of.AsSpan(k * columns, columns),
                        _system.AsSpan((a * columns + k) * _size + b * columns, columns));
                }
            }
        }
    }

    /// <summary>Solves the system; null when it has no solution.</summary>
    /// <param name="factor">A square factor of the covariance between raters; null without them.</param>
    /// <param name="restricted">Whether the likelihood is the restricted one.</param>
    public SolvedCoefficients? Solve(Matrix<double>? factor, bool restricted)
    {
        var errors = (double[])_system.Clone();
        if (factor is not null)
        {
            Mix(errors, factor.Transpose());
            foreach (var i in RaterRows()) errors[i * _size + i] += 1;
        }
        var (spread, ofSpread) = restricted || factor is null ? (null, 0.0) : RaterSpread(errors, factor);
        if (ofSpread is null || DenseKernels.Invert(errors, _size) is not { } ofAll) return null;
        var right = factor is null ? _right : Mixed(_right, factor.Transpose());
        var unit = Product(errors, right);
        var values = factor is null ? unit : Mixed(unit, factor);
        if (factor is not null) Mix(errors, factor);
        if (restricted) (spread, ofSpread) = (errors, ofAll);
        var byRater = factor is null ? null : ByRater(values, spread!);
        return new SolvedCoefficients(Matrix<double>.Build.Dense(columns, axes, values), errors, spread, ofSpread.Value,
            RaterRows().Sum(i => unit[i] * unit[i]), byRater, RaterRows().Sum(i => _system[i * _size + i]));
    }

    private IEnumerable<int> RaterRows()
    {
        for (var a = 0; a < axes; a++)
        {
            for (var k = 0; k < raters; k++) yield return a * columns + k;
        }
    }

    // The mean held fixed: the inverse for the raters alone, with zeros where the mean stands.
    private (double[]? Part, double? LogDeterminant) RaterSpread(double[] scaled, Matrix<double> factor)
    {
        var rows = RaterRows().ToArray();
        var part = new double[rows.Length * rows.Length];
        for (var i = 0; i < rows.Length; i++)
        {
            for (var j = 0; j < rows.Length; j++) part[i * rows.Length + j] = scaled[rows[i] * _size + rows[j]];
        }
        var logDeterminant = DenseKernels.Invert(part, rows.Length);
        var spread = new double[_size * _size];
        for (var i = 0; i < rows.Length; i++)
        {
            for (var j = 0; j < rows.Length; j++) spread[rows[i] * _size + rows[j]] = part[i * rows.Length + j];
        }
        Mix(spread, factor);
        return (spread, logDeterminant);
    }

    // With the left side H, the spread C and the residual of the right side ρ: the sum over raters of their blocks of H − H C H − ρ ρᵀ.
    private Matrix<double> ByRater(double[] values, double[] spread)
    {
        var residual = Product(_system, values);
        for (var i = 0; i < _size; i++) residual[i] = _right[i] - residual[i];
        var result = Matrix<double>.Build.Dense(axes, axes);
        var product = new double[_size];
        foreach (var i in RaterRows())
        {
            Array.Clear(product);
            for (var m = 0; m < _size; m++) DenseKernels.Add(_system[i * _size + m], spread.AsSpan(m * _size, _size), product);
            for (var b = 0; b < axes; b++)
            {
                var j = b * columns + i % columns;
                var sum = _system[i * _size + j] - residual[i] * residual[j];
                for (var m = 0; m < _size; m++) sum -= product[m] * _system[j * _size + m];
                result[i / columns, b] += sum;
            }
        }
        return result;
    }

    private double[] Product(double[] matrix, double[] vector)
    {
        var result = new double[_size];
        for (var m = 0; m < _size; m++) DenseKernels.Add(vector[m], matrix.AsSpan(m * _size, _size), result);
        return result;
    }

    // The axes of the raters' coefficients mixed by a matrix, those of the mean left alone.
    private double[] Mixed(double[] vector, Matrix<double> by)
    {
        var result = (double[])vector.Clone();
        for (var a = 0; a < axes; a++)
        {
            var to = result.AsSpan(a * columns, raters);
            to.Clear();
            for (var b = 0; b < axes; b++) DenseKernels.Add(by[a, b], vector.AsSpan(b * columns, raters), to);
        }
        return result;
    }

    // The same for both sides of a matrix, in place.
    private void Mix(double[] matrix, Matrix<double> by)
    {
        var old = (double[])matrix.Clone();
        foreach (var i in RaterRows())
        {
            var row = matrix.AsSpan(i * _size, _size);
            row.Clear();
            for (var b = 0; b < axes; b++)
                DenseKernels.Add(by[i / columns, b], old.AsSpan((b * columns + i % columns) * _size, _size), row);
        }
        for (var i = 0; i < _size; i++) Mixed(matrix[(i * _size)..((i + 1) * _size)], by).CopyTo(matrix, i * _size);
    }
}

namespace JumpAnalytics;

/// <summary>How the wind goes on where none is known.</summary>
public enum WindLaw
{
    /// <summary>The nearest known wind holds on.</summary>
    Constant,

    /// <summary>
    /// Speed as a power of the height above ground; the seventh root is the usual one over open ground (AMS Glossary of
    /// Meteorology, wind profile power law).
    /// </summary>
    Power,

    /// <summary>
    /// Speed as the logarithm of the height over the roughness length, above the displacement height; good to about 100 m (after Oke 1987).
    /// </summary>
    Logarithmic,
}

/// <summary>A law with its numbers; direction is that of the nearest known wind.</summary>
/// <param name="Law">Which.</param>
/// <param name="Exponent">
/// Of the power law: 1/7 over open ground by day, 0.2 to 0.3 over rough ground or in stable air (from memory).
/// </param>
/// <param name="Roughness">Roughness length of the logarithmic law, metres: grass 0.03, brush and forest 0.5 to 1.</param>
/// <param name="Displacement">Displacement height of the logarithmic law, metres: about two thirds of the tree height.</param>
[TypeFormatterSource]
public sealed record WindFill(WindLaw Law, double Exponent = 1 / 7.0, double Roughness = 0.03, double Displacement = 0)
{
    /// <summary>The nearest known wind holds on.</summary>
    public static WindFill Constant { get; } = new(WindLaw.Constant);

    /// <summary>The law in words, with its numbers.</summary>
    public string Words => Law switch
    {
        WindLaw.Constant => "held constant",
        WindLaw.Power => $"a power law with exponent {Rounding.Fixed(Exponent, 3)}",
        _ => "a logarithmic law with roughness "
            + $"{Rounding.Fixed(Roughness, 2)} m{(Displacement > 0 ? $" above {Rounding.Fixed(Displacement, 1)} m" : "")}",
    };

    /// <summary>Throws unless the law's numbers make sense and it has a wind at a reference height.</summary>
    internal void MustHoldAt(double reference, string argument)
    {
        if (Law == WindLaw.Power && !(Exponent is >= 0 and <= 1))
            throw new ArgumentException($"A power law's exponent is 0 to 1; found {Exponent}.", argument);
        if (Law != WindLaw.Logarithmic) return;
        if (!(Roughness > 0) || !(Displacement >= 0))
            throw new ArgumentException("A logarithmic law has a roughness above zero and a displacement of zero or more; "
                + $"found {Roughness} and {Displacement} m.", argument);
        if (!(reference > Displacement + Roughness))
            throw new ArgumentException("A logarithmic law needs a wind above its displacement height and roughness length, "
                + $"and it stands at {Rounding.Fixed(reference, 1)} m; measure higher up or use another law.", argument);
    }

    /// <summary>Speed at a height over that at a reference height, both above the ground.</summary>
    internal double Ratio(double height, double reference) => Law switch
    {
        WindLaw.Constant => 1,
        WindLaw.Power => height <= 0 ? 0 : Math.Pow(height / reference, Exponent),
        _ => height - Displacement <= Roughness
            ? 0 : Math.Log((height - Displacement) / Roughness) / Math.Log((reference - Displacement) / Roughness),
    };

    /// <summary>
    /// Integral of that ratio times a weight over a stretch of heights. The laws have an infinite slope where they begin, so the stretch is
    /// cut there into pieces that halve towards it; in each, Gauss and Legendre's rule is exact to rounding for a smooth weight.
    /// </summary>
    internal double Integral(double bottom, double top, double reference, Func<double, double> weight)
    {
        var begin = Law switch { WindLaw.Logarithmic => Displacement + Roughness, _ => 0 };
        if (Law == WindLaw.Constant) return Pieces.Over(bottom, top, weight);
        var from = Math.Max(bottom, begin);
        if (from >= top) return 0;
        if (Law == WindLaw.Power)
        {
            // z = u^(1/(a+1)): z^a dz = du/(a+1), which takes the power out of the integrand; the weight is smooth in z
            return Pieces.Graded(Math.Pow(from, Exponent + 1), Math.Pow(top, Exponent + 1), u => weight(Math.Pow(u, 1 / (Exponent + 1))))
                / ((Exponent + 1) * Math.Pow(reference, Exponent));
        }
        return Pieces.Graded(from, top, z => Ratio(z, reference) * weight(z), begin);
    }
}

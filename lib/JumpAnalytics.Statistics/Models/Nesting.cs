namespace JumpAnalytics.Statistics;

/// <summary>How one model lies within another.</summary>
internal enum Nested
{
    /// <summary>It does not.</summary>
    No,

    /// <summary>As an inner point of the other's parameters: twice the gain of the likelihood is chi-square.</summary>
    Inside,

    /// <summary>With one of the other's parameters at its end.</summary>
    OnEdge,

    /// <summary>With some of the other's parameters without meaning, so that the gain follows no known distribution.</summary>
    Irregular,
}

/// <summary>Which models are special cases of which.</summary>
internal static class Nesting
{
    /// <summary>How the model of one fit lies within the model of another.</summary>
    public static Nested Of(IModelFit<IErrorModel> inner, IModelFit<IErrorModel> outer)
    {
        if (inner.FreeParameters >= outer.FreeParameters) return Nested.No;
        return (inner.Model, outer.Model) switch
        {
            (BivariateNormal, BivariateNormal) => Nested.Inside, // forms with the same number of parameters hold different ones
            // Degrees of freedom fitted, not held.
            (BivariateNormal, BivariateT) when outer.FreeParameters > EllipticalSample.Axes => Nested.OnEdge,
            (BivariateNormal, ScaleMixture) => Nested.Irregular,
            _ => Nested.No,
        };
    }
}

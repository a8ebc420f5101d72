namespace JumpAnalytics.Statistics;

/// <summary>What a parameter of a model is measured in.</summary>
public enum ParameterKind
{
    /// <summary>A number without unit: a correlation, a share, a shape, degrees of freedom.</summary>
    Number,

    /// <summary>Metres.</summary>
    Length,

    /// <summary>Square metres.</summary>
    Area,
}

/// <summary>One fitted parameter of a model.</summary>
/// <param name="Name">What it is, for instance <c>bias along</c>.</param>
/// <param name="Kind">What it is measured in.</param>
/// <param name="Value">Its value, SI.</param>
/// <param name="StandardError">Its standard error in the same unit; null when it has none, the fit says why.</param>
[TypeFormatterSource]
public sealed record ModelParameter(string Name, ParameterKind Kind, double Value, double? StandardError);

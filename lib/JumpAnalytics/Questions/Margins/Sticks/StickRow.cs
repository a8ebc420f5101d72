namespace JumpAnalytics;

/// <summary>How the run lies to the forecast drift.</summary>
public enum RunDirection
{
    /// <summary>Along the drift, with it or against it.</summary>
    Along,

    /// <summary>At 45° to it.</summary>
    Oblique,

    /// <summary>Across it.</summary>
    Across,
}

/// <summary>Chances of a stick of one size on a run of one direction.</summary>
/// <param name="Run">How the run lies to the drift.</param>
/// <param name="Jumpers">Jumpers of the pass.</param>
/// <param name="All">Probability that all are inside the target radius, with its interval.</param>
/// <param name="AllButOne">Probability that at most one is outside.</param>
/// <param name="ExpectedOutside">Expected number outside.</param>
/// <param name="AtLeast">Probability that at least 0, 1, … all are inside.</param>
[TypeFormatterSource]
public sealed record StickRow(RunDirection Run, int Jumpers, Estimate All, Estimate AllButOne,
    double ExpectedOutside, IReadOnlyList<double> AtLeast);

/// <summary>The sticks of one size as they came down, beside what the model says of the same sticks.</summary>
/// <param name="Jumpers">Landings on record of the pass.</param>
/// <param name="Missions">Missions with such a stick.</param>
/// <param name="Sticks">Sticks that can be told.</param>
/// <param name="Inside">Those wholly inside their target radius.</param>
/// <param name="Observed">Their share, with its interval between missions.</param>
/// <param name="Modelled">Mean probability of the model, each stick at its own radius, run and spacing.</param>
/// <param name="Independent">What independent jumpers of the same landing rate would give.</param>
[TypeFormatterSource]
public sealed record StickCalibration(int Jumpers, int Missions, int Sticks, int Inside, Estimate Observed,
    double Modelled, double Independent);

/// <summary>The largest stick that is wholly inside with the probability the reader wants.</summary>
/// <param name="Run">How the run lies to the drift.</param>
/// <param name="Wanted">The reader's number.</param>
/// <param name="Jumpers">Jumpers, 0 where a single one falls short; the largest told stands for it and more.</param>
/// <param name="Low">Lower end of its interval.</param>
/// <param name="High">Upper end of its interval; the largest told stands for it and more.</param>
[TypeFormatterSource]
public sealed record LargestStick(RunDirection Run, double Wanted, int Jumpers, int Low, int High);

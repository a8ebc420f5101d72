namespace JumpAnalytics.Tests;

/// <summary>Misses at a few places, each as likely: a distribution without density, whose probabilities jump.</summary>
internal sealed class PlacesModel(params PlaneVector[] places) : IPlaneModel
{
    public string Name => "a few places";

    public double? LogDensity(PlaneVector miss) => null;

    public double ProbabilityWithin(double radius, PlaneVector centre = default) =>
        places.Count(p => Distance(p, centre) <= radius) / (double)places.Length;

    public double ProbabilityBeyond(double radius, PlaneVector centre = default) =>
        places.Count(p => Distance(p, centre) > radius) / (double)places.Length;

    public double RadiusHolding(double probability, PlaneVector centre = default) =>
        places.Select(p => Distance(p, centre)).Order().ElementAt((int)Math.Ceiling(probability * places.Length) - 1);

    public PlaneVector Draw(Random random) => places[random.Next(places.Length)];

    private static double Distance(PlaneVector a, PlaneVector b) => double.Hypot(a.Along - b.Along, a.Across - b.Across);
}

/// <summary>
/// Misses about the spot with the probability 1/(1 + r²/a²) beyond r: the bivariate t with two degrees of freedom, of
/// scale a/√2. About the spot only.
/// </summary>
internal sealed class FarTailModel(double a) : IPlaneModel
{
    public string Name => "far tail";

    public double? LogDensity(PlaneVector miss) => -Math.Log(Math.PI * a * a) - 2 * Math.Log(1 + miss.Length * miss.Length / (a * a));

    public double ProbabilityWithin(double radius, PlaneVector centre = default) =>
        double.IsInfinity(radius) ? 1 : radius * radius / (radius * radius + a * a);

    public double ProbabilityBeyond(double radius, PlaneVector centre = default) => a * a / (radius * radius + a * a);

    public double RadiusHolding(double probability, PlaneVector centre = default) => a * Math.Sqrt(probability / (1 - probability));

    public PlaneVector Draw(Random random)
    {
        var (radius, angle) = (RadiusHolding(random.NextDouble()), 2 * Math.PI * random.NextDouble());
        return new PlaneVector(radius * Math.Cos(angle), radius * Math.Sin(angle));
    }
}

/// <summary>Another model under a type that no code has a closed form for.</summary>
internal sealed class Disguised(IPlaneModel model) : IPlaneModel
{
    public string Name => "disguised";

    public double? LogDensity(PlaneVector miss) => model.LogDensity(miss);

    public double ProbabilityWithin(double radius, PlaneVector centre = default) => model.ProbabilityWithin(radius, centre);

    public double ProbabilityBeyond(double radius, PlaneVector centre = default) => model.ProbabilityBeyond(radius, centre);

    public double RadiusHolding(double probability, PlaneVector centre = default) => model.RadiusHolding(probability, centre);

    public PlaneVector Draw(Random random) => model.Draw(random);
}

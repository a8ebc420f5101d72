namespace JumpAnalytics.Tests;

/// <summary>Misses at a few places, each as likely: a distribution without density, whose probabilities jump.</summary>
internal sealed class PlacesModel(params DownwindVector[] places) : IMissModel
{
    public string Name => "a few places";

    public double? LogDensity(DownwindVector miss) => null;

    public double ProbabilityWithin(double radius, DownwindVector centre = default) => places.Count(p => Distance(p, centre) <= radius) / (double)places.Length;

    public double ProbabilityBeyond(double radius, DownwindVector centre = default) => places.Count(p => Distance(p, centre) > radius) / (double)places.Length;

    public double RadiusHolding(double probability, DownwindVector centre = default) =>
        places.Select(p => Distance(p, centre)).Order().ElementAt((int)Math.Ceiling(probability * places.Length) - 1);

    public DownwindVector Draw(Random random) => places[random.Next(places.Length)];

    private static double Distance(DownwindVector a, DownwindVector b) => double.Hypot(a.Downwind - b.Downwind, a.Right - b.Right);
}

/// <summary>Misses about the spot with the probability 1/(1 + r²/a²) beyond r: the bivariate t with two degrees of freedom, of scale a/√2. About the spot only.</summary>
internal sealed class FarTailModel(double a) : IMissModel
{
    public string Name => "far tail";

    public double? LogDensity(DownwindVector miss) => -Math.Log(Math.PI * a * a) - 2 * Math.Log(1 + miss.Length * miss.Length / (a * a));

    public double ProbabilityWithin(double radius, DownwindVector centre = default) => double.IsInfinity(radius) ? 1 : radius * radius / (radius * radius + a * a);

    public double ProbabilityBeyond(double radius, DownwindVector centre = default) => a * a / (radius * radius + a * a);

    public double RadiusHolding(double probability, DownwindVector centre = default) => a * Math.Sqrt(probability / (1 - probability));

    public DownwindVector Draw(Random random)
    {
        var (radius, angle) = (RadiusHolding(random.NextDouble()), 2 * Math.PI * random.NextDouble());
        return new DownwindVector(radius * Math.Cos(angle), radius * Math.Sin(angle));
    }
}

/// <summary>Another model under a type that no code has a closed form for.</summary>
internal sealed class Disguised(IMissModel model) : IMissModel
{
    public string Name => "disguised";

    public double? LogDensity(DownwindVector miss) => model.LogDensity(miss);

    public double ProbabilityWithin(double radius, DownwindVector centre = default) => model.ProbabilityWithin(radius, centre);

    public double ProbabilityBeyond(double radius, DownwindVector centre = default) => model.ProbabilityBeyond(radius, centre);

    public double RadiusHolding(double probability, DownwindVector centre = default) => model.RadiusHolding(probability, centre);

    public DownwindVector Draw(Random random) => model.Draw(random);
}

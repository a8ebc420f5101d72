namespace JumpAnalytics.Demo;

/// <summary>How one recorded descent is to be flown.</summary>
/// <param name="FullTurns">
/// Full turns beside the weaving; 0 with <paramref name="Weaves"/> false for a canopy that holds one heading.
/// </param>
/// <param name="Weaves">Whether the heading swings about the direction steered to.</param>
/// <param name="LegBeforeS">Seconds of the aircraft's leg that the recorder sees.</param>
/// <param name="StandAfterS">Seconds on the ground that it sees.</param>
/// <param name="Walks">Whether the jumper walks off.</param>
record FlightPlan(int FullTurns, bool Weaves, double LegBeforeS, double StandAfterS, bool Walks);

/// <summary>
/// One descent in metres and seconds at 50 steps a second, from the aircraft's leg to standing on the ground. Its exit, unsteered drift,
/// steering and landing are those of the season's record; wind by height, gusts, throw and headings are made to add up to them exactly.
/// </summary>
sealed class Flight
{
    public const double Step = 0.02, MetresPerYd = 0.9144;
    private const double ThrowSpeed = 40, ThrowFades = 0.7;   // m/s and s: 28 m along the run in all

    private readonly Dice _dice;
    private readonly double _exitHeight, _descentS, _openingS;
    private readonly Vec[] _wind;                              // by step from the exit on
    private readonly double[] _heading;

    public Flight(Drop drop, Touchdown touchdown, FlightPlan plan, Dice dice)
    {
        (Drop, Touchdown, Plan, _dice) = (drop, touchdown, plan, dice);
        var canopy = drop.Mission.Canopy;
        (_exitHeight, _descentS, _openingS) = (drop.ExitFt * 0.3048, canopy.DescentS, canopy.Name == "round" ? 2.5 : 5);
        var steps = (int)Math.Round(_descentS / Step);
        Heights = HeightsOf(steps);
        (_wind, WindAt) = Winds(steps, canopy);
        var flown = MetresPerYd * touchdown.Steering;
        var seconds = _descentS - _openingS;
        ForwardSpeed = plan.Weaves ? Math.Max(canopy.ForwardMph * 0.44704 * (canopy.Name == "round"
            ? dice.Between(0.6, 1) : dice.Between(0.85, 1)), 1.15 * flown.Length / seconds) : flown.Length / seconds;
        _heading = Headings(steps, flown);
        Places = PlacesOf(steps);
    }

    public Drop Drop { get; }
    public Touchdown Touchdown { get; }
    public FlightPlan Plan { get; }
    public double ForwardSpeed { get; private set; }
    public double DescentS => _descentS;
    public double OpeningS => _openingS;
    public double[] Heights { get; }                           // metres above the landing ground, by step
    public Vec[] Places { get; }                               // metres from the spot, by step; the last is the landing
    public Func<double, Vec> WindAt { get; }                   // without gusts

    // As complex numbers.
    private static Vec Multiply(Vec a, Vec b) => new(a.East * b.East - a.North * b.North, a.East * b.North + a.North * b.East);

    /// <summary>Falls to the opening, then sinks as the thinning air lets it: rate as one over the root of the density.</summary>
    private double[] HeightsOf(int steps)
    {
        const double scale = 9300;
        var ground = Drop.Mission.ElevationFt * 0.3048;
        var lost = Drop.Mission.Canopy.Name == "round" ? 22.0 : 75.0;
        var (opening, open) = (_exitHeight - lost, (int)Math.Round(_openingS / Step));
        double Rate(double height) => Math.Exp((height + ground) / (2 * scale));
        var heights = new double[steps + 1];
        for (var i = 0; i <= open; i++) heights[i] = _exitHeight - lost * Math.Pow((double)i / open, 1.6);
        var (low, high) = (0.1, 30.0);                         // the rate at sea level that reaches the ground at the end
        for (var round = 0; round < 60; round++)
        {
            var (rate, height) = ((low + high) / 2, opening);
            for (var i = open; i < steps; i++) height -= Step * rate * Rate(height);
            if (height > 0) low = rate; else high = rate;
        }
        for (var i = open; i < steps; i++) heights[i + 1] = heights[i] - Step * (low + high) / 2 * Rate(heights[i]);
        heights[steps] = 0;
        return heights;
    }

    /// <summary>
    /// A wind that grows with a power of the height and turns with it, and gusts; scaled and turned as a whole so
    /// that the drift is the record's.
    /// </summary>
    private (Vec[] Winds, Func<double, Vec> At) Winds(int steps, Canopy canopy)
    {
        var (power, veer, gustSd, gustS) =
            (_dice.Between(0.1, 0.28), _dice.Between(-15, 25) * Math.PI / 180, _dice.Between(0.25, 0.6), 12.0);
        var (gusts, gust) = (new Vec[steps + 1], new Vec(gustSd * _dice.Normal(), gustSd * _dice.Normal()));
        var fade = Math.Exp(-Step / gustS);
        for (var i = 0; i <= steps; i++)
        {
            gusts[i] = gust;
            gust = fade * gust + gustSd * Math.Sqrt(1 - fade * fade) * new Vec(_dice.Normal(), _dice.Normal());
        }
        Vec Shape(double height)
        {
            var (size, turn) = (Math.Pow(Math.Max(height, 3) / _exitHeight, power), veer * (height / _exitHeight - 0.5));
            return new Vec(size * Math.Cos(turn), -size * Math.Sin(turn)); // clockwise with height
        }
        var (shape, gusty) = (new Vec(0, 0), new Vec(0, 0));
        for (var i = 0; i < steps; i++) (shape, gusty) = (shape + Step * Shape(Heights[i]), gusty + Step * gusts[i]);
        var wanted = MetresPerYd * Touchdown.UnsteeredDrift + -1 * Thrown(_descentS) + -1 * gusty;
        var scale = Multiply(wanted, 1 / (shape.Length * shape.Length) * new Vec(shape.East, -shape.North));
        return ([.. Enumerable.Range(0, steps + 1).Select(i => Multiply(scale, Shape(Heights[i])) + gusts[i])],
            h => Multiply(scale, Shape(h)));
    }

    private Vec Thrown(double seconds) => ThrowSpeed * ThrowFades * (1 - Math.Exp(-seconds / ThrowFades)) * Vec.Toward(Drop.RunDeg);

    /// <summary>
    /// Headings that swing about a direction, with full turns between; the swing is as wide, and the direction such, that
    /// the way flown is the record's.
    /// </summary>
    private double[] Headings(int steps, Vec flown)
    {
        var open = (int)Math.Round(_openingS / Step);
        var (period, phase, turns) = (0.0, 0.0, new List<(double At, double Lasts, int Side)>());
        void Draw()
        {
            (period, phase) = (_dice.Between(24, 40), _dice.Between(0, 2 * Math.PI));
            turns.Clear();
            for (var k = 0; k < Plan.FullTurns; k++)
            {
                var share = (_descentS - _openingS) / Plan.FullTurns;
                turns.Add((_openingS + share * (k + _dice.Between(0.15, 0.55)), _dice.Between(6, 8.5), _dice.Chance(0.5) ? 1 : -1));
            }
        }
        double Turned(double t) => turns.Sum(x => x.Side * 2 * Math.PI * Smooth((t - x.At) / x.Lasts));
        double Swing(double t) => Plan.Weaves ? Math.Sin(2 * Math.PI * t / period + phase) : 0;
        Vec Way(double width)
        {
            var way = new Vec(0, 0);
            for (var i = open; i < steps; i++)
            {
                var (sin, cos) = Math.SinCos(width * Swing((i + 0.5) * Step) + Turned((i + 0.5) * Step));
                way += ForwardSpeed * Step * new Vec(sin, cos);
            }
            return way;
        }
        var (low, high) = (0.0, 2.4);                          // radians; there the mean of the cosine falls to nothing
        if (Plan.Weaves)
        {
            do Draw(); while (Way(high).Length > Math.Max(flown.Length, 20)); // the turns make some way of their own
            // And leave less time for the rest.
            if (Way(0).Length < 1.02 * flown.Length) ForwardSpeed *= 1.05 * flown.Length / Way(0).Length;
            for (var round = 0; round < 60; round++)
            {
                var middle = (low + high) / 2;
                if (Way(middle).Length > flown.Length) low = middle; else high = middle;
            }
        }
        var made = Way(low);
        var turn = (flown.BearingDeg - made.BearingDeg) * Math.PI / 180;
        if (Plan.Weaves && Math.Abs(made.Length - flown.Length) > 20)
            throw new InvalidOperationException("The headings do not make the way flown.");
        Correction = 1.0 / (steps - open) * (flown + -1 * Turn(made, turn)); // what bisection leaves, spread over the steps
        return [.. Enumerable.Range(0, steps).Select(i => turn + low * Swing((i + 0.5) * Step) + Turned((i + 0.5) * Step))];
    }

    private Vec Correction { get; set; }

    private static Vec Turn(Vec v, double clockwise) =>
        new(v.East * Math.Cos(clockwise) + v.North * Math.Sin(clockwise), v.North * Math.Cos(clockwise) - v.East * Math.Sin(clockwise));

    private static double Smooth(double share) =>
        share <= 0 ? 0 : share >= 1 ? 1 : share - Math.Sin(2 * Math.PI * share) / (2 * Math.PI) * 0.5;

    private Vec[] PlacesOf(int steps)
    {
        var (places, at) = (new Vec[steps + 1], MetresPerYd * Touchdown.Exit);
        var open = (int)Math.Round(_openingS / Step);
        for (var i = 0; i <= steps; i++)
        {
            places[i] = at + Thrown(i * Step);
            if (i == steps) break;
            at += Step * _wind[i];
            if (i < open) continue;
            var (sin, cos) = Math.SinCos(_heading[i]);
            at += ForwardSpeed * Step * new Vec(sin, cos) + Correction;
        }
        return places;
    }

    /// <summary>
    /// Place and height at a time since the exit, which may lie before it (in the aircraft) or after the landing (on the ground).
    /// </summary>
    public (Vec Place, double Height) At(double t)
    {
        if (t < 0) return (Places[0] + t * Drop.GroundKt * 0.514444 * Vec.Toward(Drop.RunDeg), _exitHeight);
        var i = (int)(t / Step);
        if (i < Places.Length - 1) return (Places[i], Heights[i]);
        var since = t - _descentS;
        return (Places[^1] + (Plan.Walks && since > 8 ? 1.1 * (since - 8) * Vec.Toward(Drop.ForecastToDeg + 70) : new Vec(0, 0)), 0);
    }
}

namespace JumpAnalytics;

/// <summary>From the chances of sticks to rows, calibration and words.</summary>
internal static class StickReport
{
    private const double FewDigits = 10;

    public static IReadOnlyList<StickRow> Rows(StickChances chances, int largest, double confidence, int missions) =>
    [
        .. from run in Enum.GetValues<RunDirection>()
           from n in Enumerable.Range(1, largest)
           let counts = chances.Counts[(int)run][n - 1]
           select new StickRow(run, n, Told(chances, run, n, 0, confidence, missions),
               n == 1 ? Estimate.Of(1, new Interval(1, 1)) : Told(chances, run, n, 1, confidence, missions),
               counts.Select((p, k) => p * (n - k)).Sum(), [.. Enumerable.Range(0, n + 1).Select(k => Math.Min(1, counts.Skip(k).Sum()))]),
    ];

    private static Estimate Told(StickChances chances, RunDirection run, int n, int outside, double confidence, int missions)
    {
        var seen = Enumerable.Range(0, chances.Resamples).Select(b => chances.At(b, run, n, outside)).Order().ToArray();
        var (low, high) = Ends(seen.Length, confidence, missions);
        var value = chances.At(-1, run, n, outside);
        return Estimate.Of(value, new Interval(Math.Min(value, seen[low]), Math.Max(value, seen[high])));
    }

    /// <summary>Places of the percentiles, widened for few missions as elsewhere.</summary>
    private static (int Low, int High) Ends(int resamples, double confidence, int missions)
    {
        var tail = NormalInterval.Below(-ClusterBootstrap.Widened(missions, (1 + confidence) / 2));
        return ((int)(tail * (resamples - 1)), (int)Math.Ceiling((1 - tail) * (resamples - 1)));
    }

    public static IReadOnlyList<LargestStick> Largest(StickChances chances, int largest, double wanted, double confidence, int missions)
    {
        return [.. Enum.GetValues<RunDirection>().Select(Of)];

        LargestStick Of(RunDirection run)
        {
            var seen = Enumerable.Range(0, chances.Resamples).Select(b => At(b, run)).Order().ToArray();
            var (low, high) = Ends(seen.Length, confidence, missions);
            return new LargestStick(run, wanted, At(-1, run), seen[low], seen[high]);
        }

        int At(int resample, RunDirection run)
        {
            var n = 0;
            while (n < largest && chances.At(resample, run, n + 1, 0) >= wanted) n++;
            return n;
        }
    }

    public static IReadOnlyList<StickCalibration> Calibrate(IReadOnlyList<StickPass> passes, StickModel? model,
        double left, double? gap, double confidence)
    {
        if (model is null) return [];
        var decided = passes.SelectMany(p => p.Landings).Where(l => l.Outcome != LandingOutcome.Undecided).ToList();
        if (decided.Count == 0) return [];
        var rate = (double)decided.Count(l => l.Outcome == LandingOutcome.Hit) / decided.Count;
        var told = passes.Where(p => p.Landings.Count <= StickOptions.MostJumpers
            && (p.Landings.Any(l => l.Outcome == LandingOutcome.Miss) || p.Landings.All(l => l.Outcome == LandingOutcome.Hit))).ToList();
        return [.. told.GroupBy(p => p.Landings.Count).OrderBy(g => g.Key).Select(g => Of(g.Key, [.. g]))];

        StickCalibration Of(int jumpers, List<StickPass> sticks)
        {
            var missions = sticks.GroupBy(p => p.Mission).Select(m => (Inside: m.Count(WhollyInside), All: m.Count())).ToList();
            return new StickCalibration(jumpers, missions.Count, sticks.Count, missions.Sum(m => m.Inside),
                ClusteredProportion.Of([.. missions.Select(m => m.Inside)], [.. missions.Select(m => m.All)], confidence).Rate,
                sticks.Average(Chance), Math.Pow(rate, jumpers));
        }

        double Chance(StickPass pass)
        {
            var smear = left * (pass.Gap ?? gap ?? 0);
            var run = pass.Run ?? new PlaneVector(1, 0);
            var n = pass.Landings.Count;
            return model.Counts(n, pass.Drop.TargetRadius, new(smear * run.Along, smear * run.Across), FewDigits)[n - 1][n];
        }

        static bool WhollyInside(StickPass pass) => pass.Landings.All(l => l.Outcome == LandingOutcome.Hit);
    }

    public static string Reading(StickMargins s)
    {
        if (!s.Model.Success) return $"What the size of a stick does can't be told: {s.Model.Reason}.";
        var distance = s.Options.Units.Distance;
        var sizes =
            s.Rows.Where(r => r.Run == RunDirection.Along && r.Jumpers is 1 or 2 or 4 or 8 && r.Jumpers <= Math.Max(2, s.LargestOnRecord));
        return $"With a target radius of {Rounding.Fixed(distance.FromSi(s.TargetRadius), 0)} {distance.Suffix} and a run along the drift, "
            + "the whole stick is inside with a chance of "
            + string.Join("; ", sizes.Select(r => $"{Rounding.Percent(r.All)} for {Rounding.Count(r.Jumpers, "jumper")}"))
            + $" ({Rounding.Count(s.Missions, "mission")}, {Rounding.Count(s.Passes)} passes, {Rounding.Count(s.Landings, "landing")}). "
            + "Jumpers of a pass miss together, which spares large sticks; "
            + "what is left of the way between their exits counts against them."
            + string.Concat(s.Largest.Where(l => l.Run == RunDirection.Along).Select(l =>
                $" The reader's wanted {Rounding.Percent(l.Wanted)} is kept by sticks of up to "
                + $"{l.Jumpers}{(l.Jumpers == s.Settings.Largest ? " and perhaps more" : "")} ({l.Low} to {l.High}) on such a run."));
    }

    public static IReadOnlyList<string> Points(StickMargins s)
    {
        var distance = s.Options.Units.Distance;
        var points = new List<string>();
        points.Add(s.PassThrough.Value is not { } left ? "How much of an exit's offset is left in the landing is not known "
            + $"({s.PassThrough.Reason}): the runs are told without it and do not differ."
            : s.Settings.PassThrough is { } own
            ? $"Of an exit's offset along the run {Rounding.Percent(own)} is taken to be left in the landing: the reader's number."
            : $"Of an exit's offset along the run {Rounding.Percent(left)} is left in the "
                + $"landing ({Rounding.Count(s.Smear.Value!.Missions, "mission")}, {Rounding.Count(s.Smear.Value.Landings, "landing")}); "
                + "0 % would be all steered off, 100 % none.");
        points.Add(s.ExitGap is { } gap
            ? $"{Rounding.Fixed(distance.FromSi(gap), 0)} {distance.Suffix} along the run from one exit to the next, the middle of the "
                + $"stick on the planned exit{(s.Settings.ExitGap is null ? " (median of the record)" : "; the reader's number")}."
            : "No ground speed and spacing on record: exits are taken to be at one place.");
        if (s.Model.Value is { WideShare: > 0 } m)
            points.Add($"The model has two kinds of landings: {Rounding.Percent(m.WideShare)} have an own part "
                + $"{Rounding.Fixed(m.Widening, 1)} times as wide as the others.");
        if (s.Model.Success && s.LargestOnRecord < s.Settings.Largest)
            points.Add($"No stick larger than {s.LargestOnRecord} is on record: beyond that the chances rest on the model alone.");
        if (s.LeftOut > 0) points.Add($"{Rounding.Count(s.LeftOut, "landing")} without a known place {(s.LeftOut == 1 ? "is" : "are")} "
            + "left out of the model: true chances are a little lower.");
        return points;
    }

    public static string Name(RunDirection run) =>
        run switch { RunDirection.Along => "along the drift", RunDirection.Oblique => "at 45°", _ => "across the drift" };
}

using System.Globalization;

namespace JumpAnalytics.Tests.Monitoring;

/// <summary>Run lengths against spc 0.6.7, exact fractions and printed tables (tests/reference/control-charts).</summary>
public sealed class RunLengthTests
{
    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>The file's own accuracy ends at about 1e-11 relative, that of its MEWMA with shift at 1e-9.</summary>
    [Fact]
    public void Average_run_lengths_are_those_of_spc()
    {
        var rows = ReferenceFiles.Rows("control-charts/arl.csv").ToList();
        Assert.Equal(98, rows.Count);
        foreach (var row in rows)
        {
            var (limit, shift) = (Number(row["h_or_L"]), Number(row["delta"]));
            var weight = row["k_or_lambda"] == "NA" ? 1 : Number(row["k_or_lambda"]);
            var found = row["chart"].Split(' ')[0] switch
            {
                "CUSUM" => CusumRunLength.TwoSided(weight, limit, shift),
                "EWMA" => EwmaRunLength.TwoSided(weight, limit, shift),
                "MEWMA" => MewmaRunLength.Plane(weight, limit, shift),
                _ => ShewhartRunLength.Plane(limit, shift),
            };
            Close.Relative(Number(row["ARL"]), found.Average, row["chart"].StartsWith('M') ? 1e-9 : 1e-10,
                $"{row["chart"]} {weight} {limit} {shift}");
        }
    }

    /// <summary>
    /// One-sided charts, head starts, distributions and limits by spc; its limits are sought to about 1e-9, the limit of MEWMA to 1e-7.
    /// </summary>
    [Fact]
    public void Other_figures_are_those_of_spc()
    {
        foreach (var row in ReferenceFiles.Rows("control-charts/spc.csv"))
        {
            var (weight, shift, expected) = (Number(row["weight"]), Number(row["shift"]), Number(row["value"]));
            var limit = row["limit"] == "NA" ? 0 : Number(row["limit"]);
            var start = row["start"] == "NA" ? 0 : Number(row["start"]);
            var points = row["points"] == "NA" ? 0 : (int)Number(row["points"]);
            var (found, tolerance) = row["kind"] switch
            {
                "ewma one" => (EwmaRunLength.OneSided(weight, limit, shift).Average, 1e-9),
                "ewma two within" => (EwmaRunLength.TwoSided(weight, limit, shift).ProbabilityWithin(points), 1e-9),
                "cusum one" => (CusumRunLength.OneSided(weight, limit, shift, start).Average, 1e-9),
                "cusum two" => (CusumRunLength.TwoSided(weight, limit, shift, start).Average, 1e-9),
                "cusum one within" => (CusumRunLength.OneSided(weight, limit, shift).ProbabilityWithin(points), 1e-9),
                "ewma limit" => (EwmaRunLength.LimitFor(points, weight), 1e-7),
                "mewma limit" => (MewmaRunLength.LimitFor(points, weight), 1e-6),
                "cusum two limit" => (CusumRunLength.LimitFor(points, weight), 1e-7),
                _ => throw new InvalidOperationException(row["kind"]),
            };
            Close.Absolute(expected, found, tolerance * Math.Max(1, expected), string.Join(' ', row.Values));
        }
    }

    /// <summary>
    /// Rational arithmetic; two sums as one state for the chart on both sides. A rounding of the probabilities of a step changes a mean run
    /// length by up to its own multiple.
    /// </summary>
    [Fact]
    public void Sums_of_hits_are_exact()
    {
        foreach (var row in ReferenceFiles.Rows("control-charts/lattice.csv"))
        {
            var (miss, landings, limit, points) = (Number(row["misses_chance"]), int.Parse(row["landings"], CultureInfo.InvariantCulture),
                (int)Number(row["limit"]), (int)Number(row["points"]));
            var (rise, fall) = ((int)Number(row["rise"]), (int)Number(row["fall"]));
            var chances = Enumerable.Range(0, landings + 1)
                .Select(k => MathNet.Numerics.Distributions.Binomial.PMF(miss, landings, k)).ToList();
            var law = row["chart"] switch
            {
                "bernoulli" => BernoulliCusumRunLength.OneSided([new(rise, miss), new(-fall, 1 - miss)], limit, (int)Number(row["start"])),
                "binomial" => BernoulliCusumRunLength.OneSided([.. chances.Select((p, k) => new LatticeStep(rise * k - fall, p))], limit),
                _ => BernoulliCusumRunLength.TwoSided([.. chances.Select((p, k) => new LatticeStep(rise * k - fall, p))],
                    [.. chances.Select((p, k) => new LatticeStep(4 - 3 * k, p))], limit),
            };
            if (row["average"].Length > 0)
                Close.Relative(Number(row["average"]), law.Average, 1e-13 + 1e-15 * law.Average, string.Join(' ', row.Values));
            Close.Absolute(Number(row["within"]), law.ProbabilityWithin(points), 1e-13, string.Join(' ', row.Values));
        }
    }

    [Fact]
    public void Printed_tables_are_met_to_their_digits()
    {
        // Brook and Evans (1972): k ½, h 3, one-sided.
        Assert.Equal(117.59, Math.Floor(100 * CusumRunLength.OneSided(0.5, 3).Average) / 100);
        Assert.Equal(3.75, Math.Round(CusumRunLength.OneSided(0.5, 3, 1.5).Average, 2));

        // Crowder (1987, Table 1): weight ½, limit 2, shifts 0 to 4 by quarters; the printed 3.95 at 1.25 is a misprint of 3.59, and 1.94
        // at 2 is 1.94522, cut off and not rounded.
        double[] crowder = [26.45, 20.12, 11.89, 7.29, 4.91, 3.59, 2.80, 2.29, 1.94, 1.70, 1.51, 1.37, 1.26, 1.18, 1.12, 1.08, 1.05];
        foreach (var (printed, i) in crowder.Select((x, i) => (x, i)))
            Close.Absolute(printed, EwmaRunLength.TwoSided(0.5, 2, i / 4.0).Average, 0.0055);

        // Limits for a run length of 370, both sides (Hawkins and Olwell 1998; Montgomery).
        double[] limits = [8.01, 4.77, 3.34, 2.52];
        Assert.Equal(limits, limits.Select((_, i) => Math.Round(CusumRunLength.LimitFor(370, (i + 1) / 4.0), 2)));

        // Rigdon (1995, Table 1): limits for run lengths of 100 to 5,000, printed with two decimals, so that the run length is met to 2 %.
        foreach (var (weight, printed) in new[] { (0.25, new[] { 8.37, 9.90, 11.89, 13.36, 14.82, 16.72 }), (0.1,
            new[] { 6.98, 8.63, 10.77, 12.37, 13.88, 15.88 }) })
        {
            foreach (var (limit, average) in printed.Zip([100.0, 200, 500, 1000, 2000, 5000]))
                Close.Relative(average, MewmaRunLength.Plane(weight, limit).Average, 0.02, $"{weight} {limit}");
        }
    }

    /// <summary>The distribution's own mean is the average run length, and its tail ends at one.</summary>
    [Fact]
    public void Mean_of_the_distribution_is_the_average()
    {
        foreach (var law in new[]
        {
            EwmaRunLength.TwoSided(0.2, 2, 0.5), EwmaRunLength.OneSided(0.2, 2, 0.3), CusumRunLength.TwoSided(0.5, 2, 0.3),
            CusumRunLength.TwoSided(0.5, 2, 0.3, 1),
            MewmaRunLength.Plane(0.2, 5), MewmaRunLength.Plane(0.2, 5, 0.5), ShewhartRunLength.TwoSided(2),
            BernoulliCusumRunLength.TwoSided([new(2, 0.3), new(-1, 0.7)], [new(-2, 0.3), new(1, 0.7)], 4),
        })
        {
            var signals = law.Signals(1500);
            Close.Absolute(1, law.ProbabilityWithin(1500), 1e-9);
            Close.Relative(law.Average, signals.Select((p, i) => p * (i + 1)).Sum(), 1e-8);
            Assert.Equal(0, law.ProbabilityWithin(0));
        }
    }

    /// <summary>
    /// A direct simulation of 40,000 runs: six standard errors, so that one of the three fails by chance about once in
    /// 10⁸ seeds. The seed is fixed.
    /// </summary>
    [Fact]
    public void Simulated_charts_run_as_long()
    {
        var random = SeedStream.For(5, "charts");
        var (cusum, ewma, plane) =
            (CusumRunLength.TwoSided(0.5, 3, 0.4), EwmaRunLength.OneSided(0.2, 2.2, 0.2), MewmaRunLength.Plane(0.2, 7, 0.7));
        Holds(cusum, () =>
        {
            var (up, down, n) = (0.0, 0.0, 0);
            while (up <= 3 && down <= 3)
            {
                var x = StandardNormal.Pair(random).First + 0.4;
                (up, down, n) = (Math.Max(0, up + x - 0.5), Math.Max(0, down - x - 0.5), n + 1);
            }
            return n;
        });
        Holds(ewma, () =>
        {
            var (z, n) = (0.0, 0);
            for (; z <= 2.2 * Math.Sqrt(0.2 / 1.8); n++) z = Math.Max(0, 0.8 * z + 0.2 * (StandardNormal.Pair(random).First + 0.2));
            return n;
        });
        Holds(plane, () =>
        {
            var (a, b, n) = (0.0, 0.0, 0);
            for (; (a * a + b * b) * 9 <= 7; n++)
            {
                var (x, y) = StandardNormal.Pair(random);
                (a, b) = (0.8 * a + 0.2 * (x + 0.7 * 0.6), 0.8 * b + 0.2 * (y + 0.7 * 0.8));
            }
            return n;
        });

        static void Holds(RunLengthLaw law, Func<int> run)
        {
            var runs = Enumerable.Range(0, 40_000).Select(_ => run()).ToList();
            var mean = runs.Average();
            var sd = Math.Sqrt(runs.Sum(r => (r - mean) * (r - mean)) / runs.Count);
            Close.Absolute(law.Average, mean, 6 * sd / 200);
            var p = law.ProbabilityWithin(10);
            Close.Absolute(p, runs.Count(r => r <= 10) / 40_000.0, 6 * Math.Sqrt(p * (1 - p)) / 200);
        }
    }

    [Fact]
    public void What_can_not_be_is_named()
    {
        Assert.Contains("0.1", Assert.Throws<ArgumentOutOfRangeException>(() => EwmaRunLength.TwoSided(0, 3)).Message,
            StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => EwmaRunLength.TwoSided(0.1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => EwmaRunLength.LimitFor(1, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumRunLength.OneSided(-1, 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumRunLength.OneSided(0.5, 3, 0, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumRunLength.TwoSided(0.5, 4, 0, 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => MewmaRunLength.Plane(0.1, 8, double.PositiveInfinity));
        Assert.Throws<ArgumentException>(() => BernoulliCusumRunLength.OneSided([new(1, 0.5)], 3));
        Assert.Contains("never signal", Assert.Throws<ArgumentException>(() => BernoulliCusumRunLength.OneSided([new(-1, 1)], 3)).Message,
            StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => ShewhartRunLength.TwoSided(3).ProbabilityWithin(-1));
    }

    /// <summary>Limits give back the run length asked for; on the lattice the least that reaches it.</summary>
    [Fact]
    public void Limits_give_the_run_length()
    {
        foreach (var average in new[] { 20.0, 370, 2000 })
        {
            Close.Relative(average, EwmaRunLength.TwoSided(0.1, EwmaRunLength.LimitFor(average, 0.1)).Average, 1e-8);
            Close.Relative(average, EwmaRunLength.OneSided(0.1, EwmaRunLength.OneSidedLimitFor(average, 0.1)).Average, 1e-8);
            var limit = CusumRunLength.LimitFor(average, 0.5, 0.5);
            Close.Relative(average, CusumRunLength.TwoSided(0.5, limit, 0, limit / 2).Average, 1e-8);
            Close.Relative(average, CusumRunLength.OneSided(0.5, CusumRunLength.OneSidedLimitFor(average, 0.5)).Average, 1e-8);
            Close.Relative(average, MewmaRunLength.Plane(0.1, MewmaRunLength.LimitFor(average, 0.1)).Average, 1e-8);
            LatticeStep[] steps = [new(4, 0.15), new(-1, 0.85)];
            var least = BernoulliCusumRunLength.LimitFor(average, steps)!.Value;
            Assert.True(BernoulliCusumRunLength.OneSided(steps, least).Average >= average
                && BernoulliCusumRunLength.OneSided(steps, least - 1).Average < average);
        }
    }
}

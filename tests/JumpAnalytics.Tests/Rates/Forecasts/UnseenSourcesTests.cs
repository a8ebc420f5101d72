namespace JumpAnalytics.Tests;

/// <summary>A log cannot be told more than it holds: sources that nobody recorded drop out, and what cannot be separated is one.</summary>
public sealed class UnseenSourcesTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200, Confidence = 0.9 };

    private static List<Landing> Season(int passes = 2, int jumpers = 3, double targetRadius = 40)
    {
        var random = SeedStream.For(11, "made season");
        var landings = new List<Landing>();
        for (var m = 0; m < 150; m++)
        {
            var mission = StandardNormal.Pair(random);
            var length = 150 + 300 * random.NextDouble();
            for (var p = 0; p < passes; p++)
            {
                var pass = StandardNormal.Pair(random);
                var drop = Made.Drop($"d{m}-{p}", $"m{m}", forecastDrift: new LocalVector(0, length), targetRadius: targetRadius,
                    windSpeed: 2 + m % 5) with { StreamerAge = 240 + 1200 * random.NextDouble(),
                        RunHeading = Bearing.FromDegrees(360 * random.NextDouble()), GroundSpeed = 30 + 30 * random.NextDouble() };
                for (var j = 0; j < jumpers; j++)
                {
                    var own = StandardNormal.Pair(random);
                    landings.Add(Made.Landing(drop, new LocalVector(8 * mission.First + 10 * pass.First + 12 * own.First,
                        8 * mission.Second + 10 * pass.Second + 12 * own.Second), j + 1) with { MeasuredSd = 1 });
                }
            }
        }
        return landings;
    }

    private static ErrorDecomposition Split(IEnumerable<Landing> landings) => ErrorDecomposition.Of([.. landings], _options);

    private static IEnumerable<Landing> With(IEnumerable<Landing> landings, Func<Drop, Drop> change) =>
        landings.Select(l => l with { Drop = change(l.Drop) });

    [Fact]
    public void Everything_recorded_gives_every_source()
    {
        var split = Split(Season());
        Assert.Equal(["forecast error of the whole mission", "forecast error that grows with the drift", "forecast error of one pass",
            "placing of the exit along the run", "jumper's own part", "jumper's own part that grows with the wind"],
            split.Sources.Value!.Select(s => s.Name));
        Assert.Equal("cube root of the age", split.Sources.Value![2].GrowsWith);
        Assert.Empty(split.NotSeen);
        Assert.All(split.Sources.Value!, s => Assert.True(s.Share.Range!.Value.High > s.Share.Range.Value.Low));
    }

    /// <summary>
    /// What the jumpers of a pass share, 10 m an axis, stays with the pass where no age was recorded: within 2 m (150 missions of two
    /// passes: four standard errors), and the jumper's own 12 m within 1.5 m.
    /// </summary>
    [Fact]
    public void Without_ages_nothing_grows_with_them_and_the_pass_keeps_its_error()
    {
        var split = Split(With(Season(), d => d with { StreamerAge = null }));
        var (pass, own) = (Source(split, "forecast error of one pass"), Source(split, "jumper's own part"));
        Assert.Equal("nothing", pass.GrowsWith);
        Close.Absolute(10, pass.Sd.Value, 2);
        Close.Absolute(12, double.Hypot(own.Sd.Value, Source(split, "jumper's own part that grows with the wind").Sd.Value), 1.5);
        Assert.Contains("The age of the streamers was not recorded for 900 of 900 landings: no error is said to grow with it.",
            split.NotSeen);
        Assert.DoesNotContain(split.Sources.Value!, s => s.GrowsWith.Contains("age", StringComparison.Ordinal));
    }

    [Fact]
    public void Equal_ages_drifts_and_winds_tell_of_no_growth()
    {
        var split = Split(With(Season(), d => d with { StreamerAge = 600, WindSpeed = 4, ForecastDrift = new LocalVector(0, 300) }));
        Assert.All(split.Sources.Value!.Where(s => s.Name is not ("far landings" or "placing of the exit along the run")),
            s => Assert.Equal("nothing", s.GrowsWith));
        Assert.Equal(3, split.NotSeen.Count(n => n.EndsWith("hardly varies: no error is said to grow with it.", StringComparison.Ordinal)));
    }

    [Fact]
    public void Without_run_headings_the_placing_of_the_exit_is_not_shown()
    {
        var none = Split(With(Season(), d => d with { RunHeading = null }));
        var three = Split(With(Season(), d => d.Mission is "m3" or "m50" or "m99" ? d : d with { RunHeading = null }));
        Assert.All(new[] { none, three }, s =>
        {
            Assert.DoesNotContain(s.Sources.Value!, x => x.Name.Contains("exit", StringComparison.Ordinal));
            Assert.All(s.Sources.Value!, x => Assert.True(double.IsFinite(x.Sd.Range!.Value.High)));
        });
        Assert.Contains(three.NotSeen, n => n.Contains("3 missions with a run heading, 20 are needed", StringComparison.Ordinal));
    }

    /// <summary>
    /// Headings on 20 of 150 missions: a resample has 1.4 in 10,000,000 chances to hold none of them, and most hold few; each still gives
    /// its variances. A resample of missions without a heading at all leaves that variance where the fit had it.
    /// </summary>
    [Fact]
    public void Few_headings_are_enough_for_every_resample()
    {
        var season = With(Season(), d => int.Parse(d.Mission[1..], System.Globalization.CultureInfo.InvariantCulture) < 20
            ? d : d with { RunHeading = null }).ToList();
        var exit = Source(Split(season), "placing of the exit along the run");
        Assert.True(double.IsFinite(exit.Sd.Range!.Value.High));
        var missions = season.GroupBy(l => l.Drop.Mission).Select(g => (IReadOnlyList<Landing>)[.. g]).ToList();
        var fit = VarianceFit.Of(missions, new SourceShapes(season).Shapes).Value!;
        var without = fit.Resampled([.. missions.Select((_, m) => m < 20 ? 0 : 1)]);
        Assert.Equal(fit.Variances[3], without[3]);
        Assert.All(without, v => Assert.True(double.IsFinite(v)));
    }

    /// <summary>The sources of mission, pass and jumper that are left, by how many passes a mission has and jumpers a pass.</summary>
    [Theory]
    [InlineData(1, 3, "forecast error of mission and pass|jumper's own part", "mission and pass")]
    [InlineData(2, 1, "forecast error of the whole mission|forecast error of one pass and jumper's own part", "pass and jumper")]
    [InlineData(1, 1, "forecast error of mission and pass and jumper's own part", "mission, pass and jumper")]
    public void What_cannot_be_separated_is_one(int passes, int jumpers, string left, string together)
    {
        var split = Split(Season(passes, jumpers));
        Assert.Equal(left.Split('|'), split.Sources.Value!.Where(s => s.GrowsWith == "nothing").Select(s => s.Name));
        Assert.Contains(split.Sources.Value!, s => s.SharedBy == together);
        Assert.Contains(split.NotSeen, n => n.Contains($"the parts of {together} cannot be separated and are shown as one",
            StringComparison.Ordinal));
        Assert.DoesNotContain(split.Sources.Value!, s => s.GrowsWith.Contains("age", StringComparison.Ordinal));
    }

    /// <summary>Where everybody hits, halving changes nothing: nobody leads by being the first in a list.</summary>
    [Fact]
    public void Nobody_leads_a_tie()
    {
        var split = Split(Season(targetRadius: 1e6));
        Assert.All(split.Sources.Value!, s => Assert.Equal(0, s.LeadsIn));
        Assert.EndsWith("No source would help more than the others if halved.", split.Reading);
    }

    [Fact]
    public void Unrecorded_errors_of_measuring_are_named_in_the_jumpers_part()
    {
        var split = Split(Season().Select((l, i) => i % 3 == 0 ? l with { MeasuredSd = null } : l));
        Assert.Contains(split.Sources.Value!, s => s.Name == "jumper's own part with unrecorded measuring error");
        Assert.Contains(split.Points, p => p.StartsWith("No error of measuring was recorded for 300 of 900 landings.",
            StringComparison.Ordinal));
    }

    [Fact]
    public void Landings_on_the_spot_itself_are_a_reason()
    {
        var split = Split(Season().Select(l => l with { Miss = default(LocalVector), MissDistance = 0 }));
        Assert.Equal("half of the landings or more are recorded on the spot itself", split.Sources.Reason);
    }

    private static ErrorDecomposition.ErrorSource Source(ErrorDecomposition split, string name) =>
        Assert.Single(split.Sources.Value!, s => s.Name == name);
}

using NodaTime;

namespace JumpAnalytics.Tests;

/// <summary>Streamers in the debrief of a mission and in the review of forecasts.</summary>
public sealed class StreamerTests
{
    private static readonly CanopyFlight _round = new("round", 4, 5, "made up"), _wing = new("wing", 9, 5, "made up");

    private static readonly AccuracyOptions _options = new() { Canopies = [_round, _wing], Units = ReportUnits.Of("m", "mps") };

    private static Drop Drop(int mission, double? exit = 457.2, double run = 0) =>
        Made.Drop($"d{mission}", $"m{mission}", windSpeed: 4, forecastDrift: new LocalVector(0, 360)) with
        {
            ExitHeight = exit, WindFrom = Bearing.FromDegrees(180), RunHeading = Bearing.FromDegrees(run), GroundSpeed = 40,
            Time = new LocalDateTime(2031, 7, 1, 9, 0).PlusDays(mission),
        };

    private static Landing Landed(Drop drop, string? canopy) => Made.Landing(drop, 0, 10, 1) with { Canopy = canopy };

    private static MissionDebrief Debrief(params Landing[] landings) =>
        MissionDebrief.Of(
            new JumpLog("made", null, [.. landings.Select(l => l.Drop).Distinct()], landings, Made.NoIntake), options: _options);

    [Fact]
    public void A_debrief_sets_the_wind_by_the_streamers_beside_the_recorded_one()
    {
        var winds = Debrief(Landed(Drop(1), "round")).Winds;
        var row = Assert.Single(winds.Streamers);
        Assert.Null(row.Found);
        Assert.Equal("streamer-winds", Assert.Single(winds.Tables).Name); // no track, no wind by height
        Assert.StartsWith("Pass 1: wind by the streamers ", Assert.Single(winds.Points), StringComparison.Ordinal);
        Assert.EndsWith("; recorded 4.0 mps from 180° true.", winds.Points[0], StringComparison.Ordinal);
        Assert.Equal(row.Streamers.Value!.Wind.Speed, ((Estimate)winds.Tables[0].Rows[0][2]!).Value, 9);
        Assert.Equal("no descent track tells the wind", winds.Tables[0].Rows[0][^1]);
        var none = Debrief(Landed(Drop(1, null), "round")).Winds.Points[0];
        Assert.Contains("no wind by the streamers: the exit height was not recorded", none, StringComparison.Ordinal);
    }

    [Fact]
    public void A_debrief_says_where_each_canopy_of_the_stick_should_have_drifted()
    {
        var plan = Debrief(Landed(Drop(1), "Round"), Landed(Drop(1), "kite")).Plan;
        Assert.Equal(["Round", "kite"], plan.Streamers.Select(s => s.Canopy));
        Assert.Equal((true, "no flight figures for this canopy"), (plan.Streamers[0].Drift.Success, plan.Streamers[1].Drift.Reason));
        Assert.Null(plan.Streamers[0].IsInKeeping(0.95)); // no track
        Assert.Contains("by the streamers a Round canopy should have drifted", plan.Points[0], StringComparison.Ordinal);
        var table = plan.Tables.Single(t => t.Name == "streamer-drifts");
        // streamers at 16.7 ft/s, the canopy at 5 m/s, and the throw of 40 m/s × 0.97 s along the drift
        var expected = 360 * 16.7 * 0.3048 / 5 + 40 * new StreamerFigures().ThrowSeconds;
        Assert.Equal(expected, ((Estimate)table.Rows[0][3]!).Value, 1e-3);
        Assert.Equal("not known", table.Rows[0][8]);
        Assert.Equal("no canopy of the stick was recorded", Assert.Single(Debrief(Landed(Drop(1), null)).Plan.Streamers).Drift.Reason);
    }

    /// <summary>
    /// A drift that a track finds 40 m from the one by the streamers is no farther off than their errors; one of 400 m is.
    /// </summary>
    [Theory]
    [InlineData(40, true)]
    [InlineData(400, false)]
    public void A_drift_by_tracks_is_in_keeping_when_the_errors_of_both_explain_the_difference(double apart, bool expected)
    {
        var drop = Drop(1) with { RunHeading = null };
        var streamers = PassStreamers.Of(drop);
        var forecastError = streamers.Value!.DriftOf(_round).Drift + new LocalVector(0, apart) - drop.ForecastDrift;
        var landing = Landed(drop with { ActualExit = drop.PlannedExit }, "round");
        var jumper = new DebriefedJumper
        {
            Landing = landing, Budget = Fit<MissBudget>.Made(MissBudget.Of(landing, landing.Miss!.Value - forecastError)),
            Track = Fit<DescentTrack>.Refused("made"), Flight = FlownDescent.Of(MadeDescents.Fly(new MadeDescent()).Track),
        };
        var pass = new DebriefedPass { Drop = drop, Number = 1, Jumpers = [jumper], Streamers = streamers };
        var drift = new PlanAndOutcome.StreamerDrift(pass, "round", Fit<PassStreamers.CanopyDrift>.Made(streamers.Value.DriftOf(_round)));
        Close.Absolute(drift.Drift.Value!.Drift + new LocalVector(0, apart), drift.Found!.Value, 1e-9);
        Assert.Equal(jumper.Flight.Value!.SteeringError, pass.TrackError);
        Assert.Equal(expected, drift.IsInKeeping(0.95));
    }

    /// <summary>
    /// In one wind for all heights, ten missions alike: half the height misses half the drift, a rate 10 % faster a tenth of the rest.
    /// </summary>
    [Fact]
    public void Seasons_say_what_the_vector_of_streamers_would_have_missed()
    {
        var figures = new StreamerFigures { ReleaseHeight = 457.2, Shape = WindFill.Constant, FasterBy = 0.25 };
        var landings = Enumerable.Range(0, 10).Select(m => Landed(Drop(m, 914.4, run: 90), "round")).ToList();
        var review = StreamerReview.Of([.. landings, Landed(Drop(20, null), "round"), Landed(Drop(21), "kite")], _options, figures);
        var rows = review.Rows.ToDictionary(r => r.Part);
        var streamers = 4 * new CanopyDescent(6.25).Seconds(0, 457.2, 0);
        Close.Absolute(0.25 * streamers, rows[StreamerReview.ByRate].Along.Value, 1e-9);
        Close.Absolute(4 * new CanopyDescent(5).Seconds(457.2, 914.4, 0), rows[StreamerReview.ByHeight].Along.Value, 1e-9);
        Close.Absolute(0, rows[StreamerReview.ByWind].Along.Value, 1e-9);
        Close.Absolute(40 * figures.ThrowSeconds, rows[StreamerReview.ByThrow].Right.Value, 1e-6);
        Close.Absolute(40 * figures.ThrowSeconds, rows[StreamerReview.ByThrow].Half, 1e-6);
        Close.Absolute(rows.Values.Take(4).Sum(r => r.Along.Value), rows[StreamerReview.Altogether].Along.Value, 1e-9);
        Assert.All(review.Rows, r => Assert.Equal((10, 10, "round"), (r.Passes, r.Missions, r.Canopy)));
        Assert.Equal(1, rows[StreamerReview.ByHeight].Outside.Value); // far more than 30 m
        Assert.Equal(
            [("no canopy with flight figures was recorded", 1), ("the exit height was not recorded, so that the fall has no length", 1)],
            review.LeftOut.OrderBy(l => l.Why, StringComparer.Ordinal));
        Assert.StartsWith("No pass of the record", StreamerReview.Of([], _options).Reading, StringComparison.Ordinal);
    }

    /// <summary>
    /// Eight missions of two passes each: the interval of a mean is t on 7 degrees of the missions' sums, wider where passes of one
    /// mission are alike.
    /// </summary>
    [Fact]
    public void Intervals_are_between_missions()
    {
        Landing Pass(int mission, int pass, double drift) => Landed(
            Drop(mission) with { Id = $"d{mission}-{pass}", WindSpeed = drift / 90, ForecastDrift = new LocalVector(0, drift) }, "round");
        StreamerReview.PartRow Rate(IEnumerable<Landing> landings) =>
            StreamerReview.Of([.. landings], _options, new StreamerFigures { Shape = WindFill.Constant }).Rows[0];
        var alike = Rate(Enumerable.Range(0, 8).SelectMany(m => new[] { Pass(m, 1, 200 + 20 * m), Pass(m, 2, 200 + 20 * m) }));
        var mixed = Rate(Enumerable.Range(0, 8).SelectMany(m => new[] { Pass(m, 1, 200 + 20 * m), Pass(m, 2, 340 - 20 * m) }));
        double Half(StreamerReview.PartRow row) => (row.Along.Range!.Value.High - row.Along.Range.Value.Low) / 2;
        double[] means = [.. Enumerable.Range(0, 8).Select(m => Rate([Pass(m, 1, 200 + 20 * m)]).Along.Value)];
        var sd = MathNet.Numerics.Statistics.Statistics.StandardDeviation(means);
        Close.Relative(MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, 7, 0.975) * sd / Math.Sqrt(8), Half(alike), 1e-9);
        Close.Absolute(0, Half(mixed), 1e-9); // every mission has the same mean
        Assert.Equal("it rests on 3 missions", Rate(Enumerable.Range(0, 3).Select(m => Pass(m, 1, 200))).Along.WhyNoRange);
    }
}

using NodaTime;

namespace JumpAnalytics.Tests;

/// <summary>The debrief of one mission without a track: plan, outcome, history and questions.</summary>
public sealed class MissionDebriefTests
{
    private static readonly AccuracyOptions _options = new();

    /// <summary>
    /// A log of earlier missions, one landing each, all in one cell, with misses of 1, 2, … metres, and a last mission of two passes.
    /// </summary>
    private static JumpLog Log(int earlier, double lastMiss = 20, string? lastPlace = "base", bool exits = true)
    {
        var (drops, landings) = (new List<Drop>(), new List<Landing>());
        for (var m = 1; m <= earlier; m++)
        {
            var drop = Made.Drop($"d{m}", $"m{m}") with { Base = "base", Time = new LocalDateTime(2031, 7, 1, 9, 0).PlusDays(m),
                StreamerAge = 60 * m, ActualExit = exits ? new LocalVector(0, -300 + m) : null };
            drops.Add(drop);
            landings.Add(Made.Landing(drop, 0, m, exitOrder: 1));
        }
        for (var p = 1; p <= 2; p++)
        {
            var drop = Made.Drop($"last-{p}", "last") with
            {
                Base = lastPlace, Time = new LocalDateTime(2032, 7, 1, 9, 0).PlusMinutes(10 * (2 - p)), StreamerAge = 600,
                RunHeading = Bearing.FromDegrees(0), GroundSpeed = 40, ExitSpacing = 1, ActualExit = exits ? new LocalVector(0, -290) : null
            };
            drops.Add(drop);
            landings.Add(Made.Landing(drop, 0, lastMiss, exitOrder: 1));
            landings.Add(Made.Landing(drop, 3, -4, exitOrder: 2));
        }
        return new JumpLog("made", null, drops, landings, Made.NoIntake);
    }

    [Fact]
    public void Passes_stand_in_order_of_time_and_jumpers_in_order_of_exit()
    {
        var debrief = MissionDebrief.Of(Log(12), "last");
        Assert.Equal(["last-2", "last-1"], debrief.Passes.Select(p => p.Drop.Id)); // the second was flown first
        Assert.Equal(["pass 1", "pass 2"], debrief.Passes.Select(p => p.Name));
        Assert.Equal([1, 2, 1, 2], debrief.Passes.SelectMany(p => p.Jumpers).Select(j => j.Landing.ExitOrder!.Value));
        // placements: first 10 m late on the plan, second 40 m farther along the run: 50 m; their middle 30 m
        Close.Absolute(new LocalVector(0, 30), debrief.Passes[0].ExitPlacement!.Value, 1e-12);
        Assert.Equal((2, 2), (debrief.Passes[0].Hits, debrief.Passes[0].Decided.Count));
        Assert.Null(debrief.Passes[0].ForecastError);
    }

    [Fact]
    public void Only_missions_before_count_as_history()
    {
        var log = Log(12, lastMiss: 11.5);
        var debrief = MissionDebrief.Of(log, "last", _options);
        var miss = debrief.History.Rows.First(r => r.Quantity == "miss distance").Rank;
        Assert.Equal((12, 12, 6.5), (miss.Missions, miss.Cases, miss.Median!.Value));
        Close.Absolute(1 / 12.0, miss.AsLarge!.Value, 1e-12); // of 1 to 12 one is 11.5 or more
        Assert.Equal(HistoryStanding.PerhapsLarge, miss.Standing);
        Assert.Equal("larger than nine in ten before, but few missions say so", miss.Words);
        Assert.Equal("5-10 mph, timber", miss.ComparedWith);
        Assert.Equal(11, MissionDebrief.Of(log, "m12", _options).History.Rows.First(r => r.Quantity == "miss distance").Rank.Missions);
        Assert.Equal(HistoryStanding.Unknown, MissionDebrief.Of(log, "m5", _options).History.Rows[0].Rank.Standing); // four missions before
        Assert.Equal("the base has too few", MissionDebrief.Of(log, "m5", _options).History.Reading[..20].ToLowerInvariant());
    }

    [Fact]
    public void Another_base_has_no_history_here()
    {
        var debrief = MissionDebrief.Of(Log(12, lastPlace: "elsewhere"), "last");
        Assert.All(debrief.History.Rows, r => Assert.Equal((0, HistoryStanding.Unknown), (r.Rank.Missions, r.Rank.Standing)));
        Assert.Contains("Too few earlier missions", debrief.History.Points[0]);
    }

    /// <summary>
    /// The interval of the share as large is that of the hit rates: beyond all of 60 missions, the upper limit is near 6 % (rule of three:
    /// 5 %; the score interval is a little wider).
    /// </summary>
    [Fact]
    public void A_value_beyond_all_of_many_missions_is_large()
    {
        var debrief = MissionDebrief.Of(Log(60, lastMiss: 61), "last", _options);
        var rank = debrief.History.Rows.First(r => r.Quantity == "miss distance").Rank;
        Assert.Equal((0.0, HistoryStanding.Large), (rank.AsLarge!.Value, rank.Standing));
        Assert.InRange(rank.AsLarge.Range!.Value.High, 0.05, 0.08);
        Close.Absolute(54.3, rank.NineInTen!.Value, 0.5); // the 90 % quantile of 1 to 60
        Assert.Contains("larger than nine in ten before", debrief.History.Reading, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_the_cell_is_thin_the_ground_and_then_the_wind_are_left_open()
    {
        var log = Log(12);
        IReadOnlyList<Drop> Relabel(Func<Drop, Drop> change) => [.. log.Drops.Select(d => d.Mission == "last" ? change(d) : d)];
        JumpLog With(Func<Drop, Drop> change) => new("made", null, Relabel(change),
            [.. log.Landings.Select(l => l with { Drop = l.Drop.Mission == "last" ? change(l.Drop) : l.Drop })], Made.NoIntake);
        Assert.Equal("5-10 mph, any ground",
            MissionDebrief.Of(With(d => d with { Terrain = "rock" }), "last").History.Rows[0].Rank.ComparedWith);
        Assert.Equal("any wind, any ground",
            MissionDebrief.Of(With(d => d with { Terrain = "rock", WindSpeed = 0.5 }), "last").History.Rows[0].Rank.ComparedWith);
    }

    [Fact]
    public void What_went_as_planned_is_told_thing_by_thing()
    {
        var debrief = MissionDebrief.Of(Log(60, lastMiss: 61), "last", _options);
        Assert.Equal(["exit", "drift", "landings", "exit", "drift", "landings"], debrief.Plan.Rows.Select(r => r.What));
        // a target radius of 30 m, a landing at 61.
        Assert.Equal([true, null, false, true, null, false], debrief.Plan.Rows.Select(r => r.AsPlanned));
        Assert.Equal("2 of 6 things planned went as planned; not so landings (pass 1, pass 2); of 2 the record can't tell.",
            debrief.Plan.Reading);
        Assert.Contains("the middle of 2 left 33 yd downwind of the plan", debrief.Plan.Rows[0].Happened, StringComparison.Ordinal);
        Assert.Contains("1 of 2 inside; the farthest 67 yd", debrief.Plan.Rows[2].Happened, StringComparison.Ordinal);
        var blind = MissionDebrief.Of(Log(12, exits: false), "last");
        Assert.All(blind.Plan.Rows.Where(r => r.What == "exit"),
            r => Assert.Equal((null, "not known: the actual exit was not recorded"), (r.AsPlanned, r.Happened)));
    }

    [Fact]
    public void The_questions_follow_what_happened()
    {
        var poor = MissionDebrief.Of(Log(60, lastMiss: 61), "last", _options).Questions.Questions;
        Assert.Equal(["planned", "happened", "why", "next time"], poor.Select(q => q.Heading).Distinct());
        Assert.Contains(poor,
            q => q.Question.Contains("in the way of pass 1, jumper 1", StringComparison.Ordinal) && q.RecordSays == "67 yd long");
        Assert.DoesNotContain(poor, q => q.Question.Contains("All came down inside", StringComparison.Ordinal));
        var good = MissionDebrief.Of(Log(60), "last", _options).Questions.Questions;
        Assert.Contains(good, q => q.Question.Contains("All came down inside", StringComparison.Ordinal));
        Assert.Contains(good, q => q.RecordSays.Contains("a recorder on one jumper", StringComparison.Ordinal));
        // an old forecast is asked about: 60 missions with ages of 1 to 60 min, this one older than all
        var log = Log(60);
        var old = new JumpLog("made", null, [.. log.Drops.Select(Aged)],
            [.. log.Landings.Select(l => l with { Drop = Aged(l.Drop) })], Made.NoIntake);
        Assert.Contains(MissionDebrief.Of(old, "last", _options).Questions.Questions, q => q.Question.Contains("second set of streamers",
            StringComparison.Ordinal) && q.RecordSays.StartsWith("streamers 70 min old", StringComparison.Ordinal));

        static Drop Aged(Drop d) => d.Mission == "last" ? d with { StreamerAge = 4200 } : d;
    }

    /// <summary>An exit far off the plan is told along the run, in seconds too: 200 m at 40 m/s are 5 s.</summary>
    [Fact]
    public void An_exit_off_the_plan_is_asked_about_along_the_run()
    {
        var log = Log(60);
        Drop Late(Drop d) => d.Mission == "last" ? d with { ActualExit = new LocalVector(10, -120) } : d;
        var late = new JumpLog("made", null, [.. log.Drops.Select(Late)],
            [.. log.Landings.Select(l => l with { Drop = Late(l.Drop) })], Made.NoIntake);
        var debrief = MissionDebrief.Of(late, "last", _options);
        Assert.Equal(false, debrief.Plan.Rows[0].AsPlanned);
        Assert.Contains(debrief.Questions.Questions,
            q => q.RecordSays == "219 yd late on the run and 11 yd right of it; 5.0 s at the ground speed");
    }

    [Fact]
    public void An_unknown_mission_is_refused_by_name_and_an_empty_one_is_the_last()
    {
        var log = Log(12);
        Assert.Equal("last", MissionDebrief.Of(log).Mission);
        var error = Assert.Throws<ArgumentException>(() => MissionDebrief.Of(log, "m99"));
        Assert.Equal("'m99' is not a mission of the log. The last of its 13 missions are m9, m10, m11, m12, last.", error.Message);
        Assert.Contains("no drop",
            Assert.Throws<ArgumentException>(() => MissionDebrief.Of(new JumpLog("empty", null, [], [], Made.NoIntake))).Message,
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_mission_without_landings_or_with_one_known_only_as_beyond_still_has_a_debrief()
    {
        var drop = Made.Drop("d1", "m1");
        var none = MissionDebrief.Of(new JumpLog("made", null, [drop], [], Made.NoIntake));
        Assert.Equal("no landing that can be told a hit or a miss", none.Plan.Rows[2].Happened);
        Assert.Equal("Nobody's landing was recorded on this mission.", none.Budgets.Reading);
        var beyond = MissionDebrief.Of(new JumpLog("made", null, [drop], [Made.Beyond(drop, 80)], Made.NoIntake));
        Assert.Equal("0 of 1 inside; the farthest beyond 87 yd", beyond.Plan.Rows[2].Happened);
        Assert.Equal("the landing is known only as beyond a distance", beyond.Budgets.Tables[0].Rows[0][^1]);
        Assert.Contains(beyond.Questions.Questions, q => q.RecordSays == "beyond 87 yd, place unknown");
        Assert.NotEqual("", none.Brief.Reading + none.History.Reading + none.Winds.Reading + none.Tracks.Reading);
    }
}

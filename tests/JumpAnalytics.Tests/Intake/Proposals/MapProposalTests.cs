namespace JumpAnalytics.Tests;

/// <summary>Proposals for invented sheets against answers written by hand.</summary>
public sealed class MapProposalTests
{
    private static MapProposal Propose(MessySheets.Sheet sheet)
    {
        using var files = Files(sheet);
        return ColumnMap.Propose(files.Folder);
    }

    private static TempLog Files(MessySheets.Sheet sheet)
    {
        var files = new TempLog();
        foreach (var table in sheet.Tables) files.With(table.File, table.Text);
        return files;
    }

    private static List<(ColumnProposal Proposal, string Expected)> Pairs(MessySheets.Sheet sheet)
    {
        var columns = sheet.Tables.SelectMany(t => t.Columns).ToList();
        var proposals = Propose(sheet).Proposals;
        Assert.Equal(columns.Select(c => c.Header), proposals.Select(p => p.Header));
        return [.. proposals.Zip(columns, (p, c) => (p, c.Expected))];
    }

    /// <summary>
    /// Headers told rightly, quantity and unit: 78 of 79 of the sheets that the words were settled with, 17 of 24
    /// of a sheet written afterwards.
    /// </summary>
    [Theory]
    [InlineData("load record", 21, 21)]
    [InlineData("database export", 22, 22)]
    [InlineData("sentences", 21, 21)]
    [InlineData("misspelt", 14, 15)]
    [InlineData("unseen", 17, 24)]
    public void The_share_of_right_answers(string name, int right, int of)
    {
        var pairs = Pairs(MessySheets.All.Single(s => s.Name == name));
        Assert.Equal((right, of), (pairs.Count(p => (p.Proposal.Target ?? "") == p.Expected), pairs.Count));
    }

    /// <summary>
    /// What is sure or likely goes into the map by itself, so none of it may be wrong; and no unit may be, however unsure.
    /// </summary>
    [Fact]
    public void Nothing_sure_or_likely_is_wrong_and_no_unit_ever()
    {
        foreach (var (proposal, expected) in MessySheets.All.SelectMany(Pairs))
        {
            if (proposal.Sureness >= Sureness.Likely) Assert.Equal(expected, proposal.Target);
            if (proposal.Target is { } target && !proposal.IsUnitOpen && ColumnMatch.UnitsOf(proposal.Column!).Count > 0)
                Assert.Equal(expected, target);
        }
    }

    [Theory]
    [InlineData("Distance (ft)", "landing_distance_ft")]
    [InlineData("Distance ft", "landing_distance_ft")]
    [InlineData("Distance_m", "landing_distance_m")]
    [InlineData("Distance [m]", "landing_distance_m")]
    [InlineData("Distance in chains", "landing_distance_ch")]
    [InlineData("Distance (nautical miles)", "landing_distance_nm")]
    [InlineData("Distance m", "landing_distance_unit?")] // one letter may be anything
    [InlineData("Distance ft/yd", "landing_distance_unit?")]
    [InlineData("Distance (ft or m)", "landing_distance_unit?")]
    [InlineData("Distance m (ft)", "landing_distance_unit?")]
    [InlineData("Distance x10 yds", "landing_distance_unit?")]
    [InlineData("Distance (hundreds of ft)", "landing_distance_unit?")]
    [InlineData("Distance (k ft)", "landing_distance_unit?")]
    [InlineData("Distance sq ft", "landing_distance_unit?")]
    [InlineData("Distance within 25 yds", "landing_distance_unit?")]
    [InlineData("Distance yds converted", "landing_distance_unit?")]
    [InlineData("Distance yds per 1000 ft", "landing_distance_unit?")]
    [InlineData("Distance", "landing_distance_unit?")]
    [InlineData("Distance (furlongs)", "landing_distance_unit?")]
    public void A_unit_is_read_or_left_open(string header, string target) =>
        Assert.Equal(target, UnitQuestion.Target(LogColumns.LandingDistance, HeaderWords.Of(header)));

    [Theory]
    [InlineData("Bearing true", "landing_bearing_deg")]
    [InlineData("Bearing (°T)", "landing_bearing_deg")]
    [InlineData("Bearing °M", "landing_bearing_degm")]
    [InlineData("Bearing (deg mag)", "landing_bearing_degm")]
    [InlineData("Magnetic bearing", "landing_bearing_degm")]
    [InlineData("Bearing (deg)", "landing_bearing_unit?")]
    [InlineData("Bearing (m)", "landing_bearing_unit?")]
    [InlineData("Bearing true/mag", "landing_bearing_unit?")]
    [InlineData("Bearing (not mag)", "landing_bearing_unit?")]
    [InlineData("Mag bearing corrected", "landing_bearing_unit?")]
    public void A_north_is_read_or_left_open(string header, string target) =>
        Assert.Equal(target, UnitQuestion.Target(LogColumns.LandingBearing, HeaderWords.Of(header)));

    [Fact]
    public void What_the_values_would_mean_is_told_under_each_unit()
    {
        var distance = Propose(MessySheets.LoadRecord).Proposals.Single(p => p.Header == "Dist to spot");
        Assert.Equal("median 28 ft = 8.5 m; 28 yd = 26 m; 28 m = 28 m; 28 ch = 563 m (km, mi, nm: far off)", distance.UnderEachUnit);
        Assert.Equal("70 name 100 % alike; 25 numbers of a usual size", distance.Evidence);
        Assert.Equal((95, "sure", "landing_beyond 58"), (distance.Score, distance.Words, distance.RunnerUp));
    }

    [Fact]
    public void Required_quantities_without_a_match_are_listed_with_the_guesses()
    {
        var points = Propose(MessySheets.Unseen).Points;
        Assert.Contains("drops.csv lacks mission.", points);
        Assert.Contains(points, p => p.EndsWith("('Streamers went (yd)' may be forecast_drift_yd, 'Streamers went toward' may be "
            + "forecast_to_unit?: a guess).", StringComparison.Ordinal));
        Assert.Empty(Propose(MessySheets.LoadRecord).Missing);
    }

    [Fact]
    public void What_to_check_stands_beside_the_proposal()
    {
        var notes = Propose(MessySheets.Misspelt).Proposals.Where(p => p.Note is not null).ToDictionary(p => p.Header, p => p.Note);
        Assert.Equal("the header names several units (ft, m)", notes["Target radius ft/m"]);
        Assert.Equal("the log has no km/h for this: convert the values", notes["Wind km/h"]);
    }

    [Fact]
    public void The_proposed_map_is_refused_until_it_is_filled_in_and_then_reads_the_sheet()
    {
        using var files = Files(MessySheets.LoadRecord);
        var json = ColumnMap.Propose(files.Folder).Json;
        var error = Assert.Throws<LogFormatException>(() => ColumnMap.Parse(json, "columns.json"));
        Assert.StartsWith("columns.json leaves 4 open, fill in before it is used:\n  'WDI Drift': 'forecast_drift_unit?' needs its unit: "
            + "forecast_drift_ch|ft|km|m|mi|nm|yd\n", error.Message, StringComparison.Ordinal);

        var filled = json.Replace("drift_unit?", "drift_yd", StringComparison.Ordinal)
            .Replace("distance_unit?", "distance_yd", StringComparison.Ordinal).Replace("to_unit?", "to_deg", StringComparison.Ordinal)
            .Replace("bearing_unit?", "bearing_deg", StringComparison.Ordinal);
        var log = JumpLog.Read(files.Folder, ColumnMap.Parse(filled));
        Assert.Equal((16, 48), (log.Drops.Count, log.Landings.Count));
        Assert.Equal(250 * 0.9144, log.Drops[0].ForecastDrift.Length, 1e-9);
    }

    [Fact]
    public void Codes_for_yes_and_no_that_nobody_knows_are_left_open()
    {
        using var files = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1),
            TempLog.Lines(TempLog.LandingsHeader + ",Hung up?", "d1,1,2,T", "d1,1,2,N", "d1,1,2,N", "d1,1,2,N"));
        var proposal = ColumnMap.Propose(files.Folder);
        Assert.Contains("yes or no? landings.csv, 'Hung up?' holds 'T'.", proposal.Points);
        Assert.Contains("'T' of hung_up needs yes, no,", Assert.Throws<LogFormatException>(() => ColumnMap.Parse(proposal.Json)).Message,
            StringComparison.Ordinal);
        var log = JumpLog.Read(files.Folder,
            ColumnMap.Parse(proposal.Json.Replace("\"T\": \"?\"", "\"T\": \"yes\"", StringComparison.Ordinal)));
        Assert.Equal([true, false, false, false], log.Landings.Select(l => l.HungUp));
    }

    /// <summary>The log's own headers need no map; hostile texts stay inside comments and strings.</summary>
    [Fact]
    public void A_log_with_its_own_headers_needs_an_empty_map()
    {
        using var files = TempLog.Plain([], []);
        var map = ColumnMap.Parse(ColumnMap.Propose(files.Folder).Json);
        Assert.Empty(map.Columns);
        Assert.Single(JumpLog.Read(files.Folder, map).Landings);

        using var hostile = TempLog.Of(TempLog.Lines(TempLog.DropsHeader + ",\"wind \"\"*/ from\u2028x\"", TempLog.Drop1 + ",5"),
            TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        Assert.Empty(ColumnMap.Parse(ColumnMap.Propose(hostile.Folder).Json).Columns);
    }
}

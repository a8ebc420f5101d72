using System.Globalization;
using JumpAnalytics.Demo;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests.Checks;

/// <summary>How often each check finds a planted fault, and how often it flags sound records.</summary>
public sealed class RecordCheckRatesTests(ITestOutputHelper output)
{
    /// <summary>
    /// The table of detection and false alarms:
    /// <c>dotnet test tests/JumpAnalytics.Tests -c Release -s tests/long.runsettings --filter RecordCheckRates -l "console;verbosity=detailed"</c>.
    /// 200 plantings of each fault; a check that finds 95 % of them would fail "at least 180 found" with a chance of 2e-3 each (binomial).
    /// 1,000 sound seasons; one with 1 % false alarms would fail "at most 20" with a chance of 2e-3 each. Seeds are fixed.
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void Planted_faults_are_found_and_sound_seasons_pass()
    {
        var (found, alarms) = (Found(200), Alarms(1000));
        Write(found, 200, "found in");
        Write(alarms, 1000, "false alarms in");
        Assert.DoesNotContain(found, f => f.Count < 180);
        Assert.DoesNotContain(alarms, a => a.Count > 20);
    }

    /// <summary>The same in short: each fault thrice, 12 sound seasons.</summary>
    [Fact]
    public void Planted_faults_are_found_and_sound_seasons_pass_in_short()
    {
        Assert.Equal([], Found(3).Where(f => f.Count < 2).Select(f => f.What));
        Assert.Equal([], Alarms(12).Where(a => a.Count > 1).Select(a => a.What));
    }

    private static List<(string What, int Count)> Found(int seasons) =>
        [.. Plantings.All.Select((p, k) => (p.ToString(), Enumerable.Range(0, seasons).AsParallel().Count(i => Finds(p, (ulong)(20_000 + 1000 * k + i)))))];

    private static bool Finds(Planting planting, ulong seed)
    {
        var season = new CleanSeason(seed, planting.Heaped);
        var told = planting.Plant(season);
        told.Sources = [.. Lines(season.Drops, "drops.csv", told), .. Lines(season.Landings, "landings.csv", told)];
        var report = RecordChecks.Of(season.Read());
        return report.Flags.Any(f => f.Check == planting.Check && planting.Finds(f, told));
    }

    private static IEnumerable<RowSource> Lines(List<Row> rows, string file, Told told) =>
        rows.Select((row, i) => (row, i)).Where(r => told.Rows.Contains(r.row)).Select(r => new RowSource(file, r.i + 2));

    /// <summary>Sound seasons with true places to a yard, so that heaping, which the generator writes by design, is none.</summary>
    private static List<(string What, int Count)> Alarms(int seasons)
    {
        var flags = Enumerable.Range(0, seasons).AsParallel().AsOrdered()
            .SelectMany(i => RecordChecks.Of(new CleanSeason((ulong)(900_000 + i), heaped: false).Read()).Flags.Select(f => f.Check).Distinct()).ToList();
        return [.. RecordChecks.All.Select(c => (c.Name, flags.Count(f => f == c.Name)))];
    }

    private void Write(List<(string What, int Count)> rows, int n, string verb)
    {
        foreach (var (what, count) in rows)
        {
            var low = count == 0 ? 0 : Beta.InvCDF(count, n - count + 1, 0.025);
            var high = count == n ? 1 : Beta.InvCDF(count + 1, n - count, 0.975);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what} | {verb} {count} of {n} | {100.0 * count / n:0.0} % | {100 * low:0.0} to {100 * high:0.0} %"));
        }
    }
}

using System.Globalization;
using JumpAnalytics.Demo;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests.Checks;

/// <summary>How often each check finds a planted fault, and how often it flags sound records.</summary>
public sealed class RecordCheckRatesTests(ITestOutputHelper output)
{
    /// <summary>
    /// The table of detection and false alarms, for logs of three years (330 missions) and of one (110): <c>dotnet test
    /// tests/JumpAnalytics.Tests -c Release -s tests/long.runsettings --filter "FullyQualifiedName~RecordCheckRates" --logger
    /// "console;verbosity=detailed"</c>. Of three years, 100 plantings of each fault: one that is found in 95 % would fail "at least 88
    /// found" with a chance of 2e-3 (binomial). 1,000 sound logs of each length: a check with 1 % false alarms would fail "at most 20" with
    /// a chance of 2e-3. Seeds are fixed, and are not those that limits were set with.
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void Planted_faults_are_found_and_sound_seasons_pass()
    {
        var alarms = Written(Alarms(1000, years: 3, heaped: false), 1000, "three years, true places | flagged in");
        var alarmsInOne = Written(Alarms(1000, years: 1, heaped: true), 1000, "one year, as recorded | flagged in");
        var found = Written(Found(100, years: 3), 100, "three years | found in");
        Written(Found(100, years: 1), 100, "one year | found in");
        Assert.DoesNotContain(found, f => f.Count < 88);
        Assert.DoesNotContain(alarms, a => a.Count > 20);
        Assert.DoesNotContain(alarmsInOne, a => a.Count > 20 && a.What != new HeapingCheck().Name); // the generator rounds by design
    }

    /// <summary>The same in short: each fault thrice, 12 sound logs.</summary>
    [Fact]
    public void Planted_faults_are_found_and_sound_seasons_pass_in_short()
    {
        Assert.Equal([], Found(3, years: 3).Where(f => f.Count < 2).Select(f => f.What));
        Assert.Equal([], Alarms(12, years: 3, heaped: false).Where(a => a.Count > 1).Select(a => a.What));
    }

    private static IEnumerable<(string What, int Count)> Found(int logs, int years) =>
        Plantings.All.Select((p, k) =>
            (p.ToString(), Enumerable.Range(0, logs).AsParallel().Count(i => Finds(p, (ulong)(3_000_000 + 1000 * k + i), years))));

    private static bool Finds(Planting planting, ulong seed, int years)
    {
        var season = new CleanSeason(seed, planting.Heaped, years);
        var told = planting.Plant(season);
        told.Sources = [.. Lines(season.Drops, "drops.csv", told), .. Lines(season.Landings, "landings.csv", told)];
        var report = RecordChecks.Of(season.Read());
        return report.Flags.Any(f => f.Check == planting.Check && planting.Finds(f, told));
    }

    private static IEnumerable<RowSource> Lines(List<Row> rows, string file, Told told) =>
        rows.Select((row, i) => (row, i)).Where(r => told.Rows.Contains(r.row)).Select(r => new RowSource(file, r.i + 2));

    private static List<(string What, int Count)> Alarms(int logs, int years, bool heaped)
    {
        var flags = Enumerable.Range(0, logs).AsParallel().AsOrdered()
            .SelectMany(i => RecordChecks.Of(new CleanSeason((ulong)(7_000_000 + i), heaped, years).Read()).Flags.Select(f => f.Check)
                .Distinct()).ToList();
        return [.. RecordChecks.All.Select(c => (c.Name, flags.Count(f => f == c.Name)))];
    }

    private List<(string What, int Count)> Written(IEnumerable<(string What, int Count)> rows, int n, string verb)
    {
        var all = new List<(string What, int Count)>();
        foreach (var (what, count) in rows)
        {
            all.Add((what, count));
            var low = count == 0 ? 0 : Beta.InvCDF(count, n - count + 1, 0.025);
            var high = count == n ? 1 : Beta.InvCDF(count + 1, n - count, 0.975);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{what} | {verb} {count} of {n} | {100.0 * count / n:0.0} % | {100 * low:0.0} to {100 * high:0.0} %"));
        }
        return all;
    }
}

using System.Diagnostics;
using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>
/// Good logs mutated at random (bytes, fields, separators, headers, encodings): nothing is thrown but the error of the format,
/// every row read is accepted or quarantined, and no record holds a number that is none. A case is made from its number alone, so
/// that a failure can be run again.
/// </summary>
public sealed class HostileFuzzTests(ITestOutputHelper output)
{
    [Fact]
    public void A_few_thousand_mutated_logs() => Run(3_000, first: 0);

    /// <summary>How many: the environment variable JUMPANALYTICS_FUZZ, 200,000 without it.</summary>
    [Fact, Trait("Category", "Long")]
    public void Many_mutated_logs() =>
        Run(int.TryParse(Environment.GetEnvironmentVariable("JUMPANALYTICS_FUZZ"), NumberStyles.None, CultureInfo.InvariantCulture,
            out var count) ? count : 200_000, first: 1_000_000);

    /// <summary>
    /// A ledger of any log that can be read changes nothing when it is put beside the files as it is, and screening throws nothing.
    /// </summary>
    [Fact]
    public void Ledgers_of_mutated_logs_change_nothing() => RunLedgers(1_500, first: 500_000);

    [Fact, Trait("Category", "Long")]
    public void Ledgers_of_many_mutated_logs_change_nothing() => RunLedgers(50_000, first: 600_000);

    private static void RunLedgers(int count, int first)
    {
        var written = 0;
        using var folder = new FuzzFolder();
        for (var i = 0; i < count; i++)
        {
            FuzzedLog.Write(first + i, folder.Path);
            try
            {
                if (Logged(folder.Path) is not { } log) continue;
                if (i % 10 == 0 && log.ForSharing().Intake.RowsQuarantined != log.Intake.RowsQuarantined)
                    throw new InvalidOperationException("screening lost a row");
                var ledgers = log.WriteQuarantine(folder.Path);
                written += ledgers.Count;
                var again = JumpLog.Read(folder.Path).Intake;
                foreach (var ledger in ledgers) File.Delete(ledger);
                if (again.RowsRepaired != 0 || again.QuarantineTable.ToCsv() != log.Intake.QuarantineTable.ToCsv())
                    throw new InvalidOperationException("the ledger changed something");
            }
            catch (Exception e)
            {
                throw new InvalidOperationException(string.Create(CultureInfo.InvariantCulture, $"Case {first + i}: {e.Message}"), e);
            }
        }
        Assert.True(written > count / 4);
    }

    private static JumpLog? Logged(string folder)
    {
        try
        {
            return JumpLog.Read(folder);
        }
        catch (LogFormatException)
        {
            return null;
        }
    }

    private void Run(int count, int first)
    {
        var (read, refusedLogs, accepted, quarantined, setAside) = (0L, 0L, 0L, 0L, 0L);
        var clock = Stopwatch.StartNew();
        using var folder = new FuzzFolder();
        for (var i = 0; i < count; i++)
        {
            var isFlat = FuzzedLog.Write(first + i, folder.Path);
            try
            {
                var log = JumpLog.Read(folder.Path);
                if (Fault(log, isFlat) is { } fault) throw new InvalidOperationException(fault);
                read++;
                accepted += log.Intake.RowsAccepted;
                quarantined += log.Intake.RowsQuarantined;
                setAside += log.Intake.SetAside.Count;
            }
            catch (LogFormatException e) when (e.Message.Length > 0)
            {
                refusedLogs++;
            }
            catch (Exception e)
            {
                throw new InvalidOperationException(string.Create(CultureInfo.InvariantCulture, $"Case {first + i}: {e.Message}"), e);
            }
        }
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{count} inputs in {clock.Elapsed.TotalSeconds:0} s: {read} logs read, {refusedLogs} refused whole; "
                + $"{accepted} rows accepted, {quarantined} quarantined, {setAside} values set aside."));
        // Every outcome is tried.
        Assert.True(read > count / 4 && refusedLogs > count / 100 && quarantined > count / 10 && setAside > count / 100);
    }

    private static string? Fault(JumpLog log, bool isFlat)
    {
        var intake = log.Intake;
        if (intake.RowsRead != intake.RowsAccepted + intake.RowsQuarantined || intake.RowsQuarantined != intake.Quarantine.Count)
            return "rows read are not rows accepted and quarantined";
        if (!isFlat && intake.RowsAccepted != log.Drops.Count + log.Landings.Count) return "accepted rows are not drops and landings";
        if (isFlat && intake.RowsAccepted < Math.Max(log.Drops.Count, log.Landings.Count)) return "more records than accepted rows";
        if (intake.RowsRead < log.Drops.Count) return "more drops than rows";
        foreach (var refused in intake.Quarantine)
        {
            if (refused.Problems.Count == 0 || refused.Fields.Count == 0 || refused.Source.Line < 2)
                return $"the refused row {refused.Source} lacks its reason, fields or line";
        }
        foreach (var drop in log.Drops)
        {
            if (!Finite(drop.TargetRadius, drop.WindSpeed, drop.ForecastDrift.East, drop.ForecastDrift.North, drop.SpotElevation,
                drop.SurfaceWindSpeed, drop.ExitHeight, drop.StreamerAge, drop.GroundSpeed, drop.ExitSpacing, drop.ActualExit?.East,
                drop.ActualExit?.North, drop.Declination, drop.WindFrom?.Degrees, drop.RunHeading?.Degrees,
                drop.Spot?.Latitude, drop.Spot?.Longitude, drop.Frame?.ToDownwind(drop.ForecastDrift).Along))
                return $"a number of {drop.Source} is none";
        }
        foreach (var landing in log.Landings)
        {
            if (!Finite(landing.Miss?.East, landing.Miss?.North, landing.MissDistance, landing.Beyond, landing.MeasuredSd,
                landing.MissDownwind?.Along, landing.MissDownwind?.Across))
                return $"a number of {landing.Source} is none";
            if (landing.IsCensored == landing.Miss.HasValue) return $"{landing.Source} has neither place nor distance, or both";
        }
        return null;
    }

    private static bool Finite(params ReadOnlySpan<double?> numbers)
    {
        foreach (var number in numbers)
        {
            if (number is { } value && !double.IsFinite(value)) return false;
        }
        return true;
    }

    /// <summary>A folder in memory where the system has one: a million small files wear a disk for nothing.</summary>
    private sealed class FuzzFolder : IDisposable
    {
        public FuzzFolder()
        {
            Path = System.IO.Path.Combine(Directory.Exists("/dev/shm") ? "/dev/shm" : System.IO.Path.GetTempPath(),
                "jump-fuzz-" + Guid.NewGuid().ToString("N"));
            Directory.CreateDirectory(Path);
        }

        public string Path { get; }

        public void Dispose() => Directory.Delete(Path, recursive: true);
    }
}

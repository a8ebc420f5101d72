using System.Collections.Concurrent;

namespace JumpAnalytics.Tests;

/// <summary>Every question of the library has an answer in words for every odd log.</summary>
public sealed class OddLogsTests
{
    /// <summary>All but the answers that simulate for seconds, for each log.</summary>
    [Fact]
    public void Every_question_has_an_answer_for_every_odd_log() => Answered(OddLogs.All, all: false);

    [Fact, Trait("Category", "Long")]
    public void Every_slow_question_has_an_answer_for_every_odd_log() => Answered(OddLogs.All, all: true);

    [Fact, Trait("Category", "Long")]
    public void Every_question_has_an_answer_without_any_two_columns() => Answered(OddLogs.Pairs, all: false);

    /// <summary>An order of exit beyond 2³¹ is not cut to another number: the value is set aside, or its row refused, and said.</summary>
    [Fact]
    public void A_count_too_large_for_a_number_is_said()
    {
        var log = OddLogs.Named("orders of exit beyond a count").Read();
        Assert.Equal(1, log.Intake.SetAside.Count + log.Intake.Quarantine.Count);
        Assert.Contains("3000000000", log.Intake.SetAsideTable.ToString() + log.Intake.QuarantineTable, StringComparison.Ordinal);
    }

    /// <summary>An answer that has not come after half an hour is taken for one that never will, and is named.</summary>
    private static void Answered(IEnumerable<OddLog> logs, bool all)
    {
        var (faults, asked) = (new ConcurrentQueue<string>(), new ConcurrentDictionary<string, string>());
        var work = Task.Run(() => Parallel.ForEach(logs, new ParallelOptions { MaxDegreeOfParallelism = 2 }, log =>
        {
            foreach (var fault in OddAnswers.Faults(
                log, static (result, writer) => result.WriteHtml(writer), name => asked[log.Name] = name, all)) faults.Enqueue(fault);
            asked.TryRemove(log.Name, out _);
        }));
        if (!work.Wait(TimeSpan.FromMinutes(30)))
        {
            foreach (var (log, name) in asked) faults.Enqueue($"{log}: {name} has no answer");
        }
        Assert.True(faults.IsEmpty, string.Join("\n", faults.Order(StringComparer.Ordinal)));
    }
}

namespace JumpAnalytics.Tests;

/// <summary>Every question of the library has an answer in words for every odd log.</summary>
public sealed class OddLogsTests
{
    [Fact]
    public void Every_question_has_an_answer_for_every_odd_log() => Answered(OddLogs.All);

    [Fact, Trait("Category", "Long")]
    public void Every_question_has_an_answer_without_any_two_columns() => Answered(OddLogs.Pairs);

    /// <summary>An answer that has not come after five minutes is taken for one that never will.</summary>
    private static void Answered(IEnumerable<OddLog> logs)
    {
        var faults = new System.Collections.Concurrent.ConcurrentQueue<string>();
        var done = new System.Collections.Concurrent.ConcurrentDictionary<string, string>();
        var all = Task.Run(() => Parallel.ForEach(logs, log =>
        {
            foreach (var fault in OddAnswers.Faults(log, static (result, writer) => result.WriteHtml(writer), name => done[log.Name] = name))
                faults.Enqueue(fault);
            done.TryRemove(log.Name, out _);
        }));
        if (!all.Wait(TimeSpan.FromSeconds(60)))
            foreach (var (log, name) in done) faults.Enqueue($"{log}: {name} DidNotEndException: no answer");
        Assert.True(faults.IsEmpty, string.Join("\n", faults.Order(StringComparer.Ordinal)));
    }
}

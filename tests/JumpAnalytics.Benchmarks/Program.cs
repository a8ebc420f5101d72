using JumpAnalytics.Benchmarks;
using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

switch (args)
{
    case [SideBySideCommand.Name, .. var asked]: return SideBySideCommand.Run(asked);
    case [GrowthCommand.Name, .. var asked]: return GrowthCommand.Run(asked);
    case [GrowthCommand.One, var name, var size]: return GrowthCommand.RunOne(name, size);
}

// Short jobs in this process: figures in about a minute. On a machine that does other work, look at the Min column.
var config = DefaultConfig.Instance
    .AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance))
    .AddColumn(StatisticColumn.Min, StatisticColumn.OperationsPerSecond)
    .HideColumns(Column.Error, Column.StdDev);
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args, config);
return 0;

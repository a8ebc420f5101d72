using JumpAnalytics.Runner;

if (args is [ChildLoop.Command])
    await ChildLoop.RunAsync();

return await CommandLine.RunAsync(args);

#!/usr/bin/env -S dotnet run
#:property PublishAot=false
#:property InvariantGlobalization=true
#:include generate/*.cs

// Writes the invented demo season: drops.csv, landings.csv, truth.csv and flaws.csv, the same bytes on every run.
//   dotnet run data-demo/generate.cs [-- <out folder>]
// The planted facts stand in generate/Planted.cs. Lengths are yards and winds mph, as a recorder writes them. Vectors are
// east/north; "along" is down the forecast drift (+ = long) and "right" is 90 degrees clockwise from it.

using JumpAnalytics.Demo;

var season = new DemoSeason(Planted.Seed);
var asides = season.Write(args.Length > 0 ? args[0] : (string)AppContext.GetData("EntryPointFileDirectoryPath")!);
Console.WriteLine(string.Join('\n', [.. season.FlawLines, "", .. asides]));

using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;

namespace JumpAnalytics.Mutants;

/// <summary>Puts faults into rooms, one at a time, and says how many of them the tests find.</summary>
internal sealed record MutationCommand(IReadOnlyList<Room> Rooms, int Each, int Seed, int Workers)
{
    private const string Help = "usage: [room ...] [--each 40] [--seed 1] [--workers 2]; --each 0 tries every fault";

    public static MutationCommand From(string[] args)
    {
        var rooms = new List<Room>();
        var numbers = new Dictionary<string, int> { ["--each"] = 40, ["--seed"] = 1, ["--workers"] = Environment.ProcessorCount };
        for (var i = 0; i < args.Length; i++)
        {
            if (numbers.ContainsKey(args[i]))
            {
                numbers[args[i]] = i + 1 < args.Length && int.TryParse(args[i + 1], CultureInfo.InvariantCulture, out var n) && n >= 0 ? n
                    : throw new ArgumentException($"{args[i]} needs a whole number. {Help}");
                i++;
                continue;
            }
            rooms.Add(Room.All.FirstOrDefault(r => string.Equals(r.Name, args[i], StringComparison.OrdinalIgnoreCase))
                ?? throw new ArgumentException(
                    $"'{args[i]}' is no room; rooms: {string.Join(", ", Room.All.Select(r => r.Name))}. {Help}"));
        }
        return new(rooms is [] ? Room.All : rooms, numbers["--each"], numbers["--seed"], Math.Max(1, numbers["--workers"]));
    }

    public int Run()
    {
        var root = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(root.FullName, "JumpAnalytics.sln")))
        {
            root = root.Parent ?? throw new DirectoryNotFoundException("No JumpAnalytics.sln above the program.");
        }
        var tests = Path.Combine(root.FullName, "tests", "JumpAnalytics.Tests");
        var testBin = Path.Combine(tests, "bin", "Release", "net10.0");
        var harmless = Harmless.Read(Path.Combine(root.FullName, "tests", "JumpAnalytics.Mutants", "harmless.txt"));
        var slots = Enumerable.Range(1, Workers).Select(i => new TestRun(
            testBin, Path.Combine(root.FullName, "tests", "JumpAnalytics.Mutants", "obj", "slots", $"{i}"))).ToList();
        var below = 0;
        foreach (var room in Rooms)
        {
            var library = new Library(Path.Combine(root.FullName, "lib", room.Project), testBin);
            var classes = TestRun.Classes(tests, room.Tests);
            var faults = room.Files(library.Folder).SelectMany(f => Mutations.Of(f, library.Tree(f))).OrderBy(m => m.Order(Seed)).ToList();
            below += Try(room, library, slots, classes, faults, harmless) ? 0 : 1;
            slots.ForEach(s => library.Write(null, s.Put(library.Name)));
        }
        return below == 0 ? 0 : 1;
    }

    private bool Try(Room room, Library library, List<TestRun> slots, IReadOnlyList<string> classes, List<Mutant> faults, Harmless harmless)
    {
        var watch = Stopwatch.StartNew();
        library.Write(null, slots[0].Put(library.Name));
        if (slots[0].Passes(classes, TimeSpan.FromMinutes(15)) is not true)
        {
            throw new InvalidOperationException($"{room.Name}: its tests fail without any fault.");
        }
        var limit = TimeSpan.FromSeconds(20) + (4 * watch.Elapsed);
        var queue = new ConcurrentQueue<Mutant>(faults);
        var survivors = new ConcurrentBag<Mutant>();
        var (killed, endless, equal, wanted) = (0, 0, 0, Each == 0 ? int.MaxValue : Each);
        Parallel.ForEach(slots, new ParallelOptions { MaxDegreeOfParallelism = slots.Count }, slot =>
        {
            while (Volatile.Read(ref killed) + survivors.Count < wanted && queue.TryDequeue(out var fault))
            {
                if (harmless.Holds(fault))
                {
                    Interlocked.Increment(ref equal);
                }
                else if (!library.Write(fault, slot.Put(library.Name)))
                {
                    continue;
                }
                else
                {
                    var passes = slot.Passes(classes, limit);
                    if (passes is true)
                    {
                        survivors.Add(fault);
                        continue;
                    }
                    Interlocked.Increment(ref killed);
                    Interlocked.Add(ref endless, passes is null ? 1 : 0);
                }
            }
        });
        var tried = killed + survivors.Count;
        var share = tried == 0 ? 1 : (double)killed / tried;
        Console.WriteLine($"{room.Name,-11} {killed,4} of {tried,4} found ({share:P0}, wanted {room.Wanted:P0}), {endless} by the clock; "
            + $"{equal} harmless left out; {faults.Count} faults to choose from; {watch.Elapsed.TotalMinutes:0.0} min");
        foreach (var s in survivors.OrderBy(s => s.File, StringComparer.Ordinal).ThenBy(s => s.Line))
        {
            Console.WriteLine($"    lives: {s with { File = Path.GetRelativePath(library.Folder, s.File) }}");
        }
        return share >= room.Wanted;
    }
}

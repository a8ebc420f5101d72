using System.Security.Cryptography;
using System.Text;

namespace JumpAnalytics.Mutants;

/// <summary>One fault put in: the piece of a source file that changes, and what takes its place.</summary>
internal sealed record Mutant(string File, int Line, int Start, int Length, string Old, string New, string Code)
{
    /// <summary>What names it in the list of harmless ones: it survives a move of the line.</summary>
    public string Key => $"{Path.GetFileName(File)} | {Code} | {Old} -> {New}";

    /// <summary>A place in a random order that other changes of the sources leave as it is.</summary>
    public string Order(int seed) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes($"{seed} {Key} {Start % 7}")));

    public override string ToString() => $"{File}:{Line}  {Old}  ->  {New}    in: {Code}";
}

using System.Text.Json.Nodes;

namespace JumpAnalytics.Runner;

/// <summary>Something that runs the cells of one notebook, one after the other, keeping their state.</summary>
internal interface ICellEngine
{
    /// <summary>Runs a code cell; <paramref name="number"/> counts the code cells from 1.</summary>
    Task<CellRun> RunAsync(int number, string code);
}

/// <summary>What a cell gave: outputs as nbformat stores them, and the error that ended it.</summary>
internal sealed record CellRun(JsonArray Outputs, CellError? Error);

/// <summary>Why a cell failed. The places are lines of cells, innermost first; the stack is for the failed notebook.</summary>
internal sealed record CellError(string Type, string Message, IReadOnlyList<CellPlace> Places, IReadOnlyList<string> Stack)
{
    /// <summary>An error without a place.</summary>
    public static CellError Of(string type, string message) => new(type, message, [], []);

    /// <summary>As nbformat stores it.</summary>
    public JsonObject ToOutput() => new()
    {
        ["output_type"] = "error",
        ["ename"] = Type,
        ["evalue"] = Message,
        ["traceback"] = new JsonArray([$"{Type}: {Message}", .. Stack.Select(frame => (JsonNode)frame)]),
    };
}

/// <summary>A line of a code cell, both from 1.</summary>
internal sealed record CellPlace(int Cell, int Line);

using System.CommandLine;

namespace JumpAnalytics.Runner;

/// <summary>Says what a column of the log or of a table means.</summary>
internal static class ExplainCommand
{
    public const string Name = "explain";

    private static readonly Argument<string?> _column = new("column")
    {
        Description = "A header of the log or a column of a table; without it, all of them.",
        Arity = ArgumentArity.ZeroOrOne,
    };

    public static Command For(Places places)
    {
        var command = new Command(Name, "Says what a column of the log or of a table means, with unit and sign.") { _column };
        command.SetAction(async parsed =>
        {
            var code = parsed.GetValue(_column) is { } column && LibraryCall.Literal(column) is var word
                ? $"Console.Write(Glossary.Explain({word})); Console.Write(Glossary.Knows({word}));"
                : "Console.WriteLine(Glossary.Log); Console.Write(Glossary.Tables); Console.Write(true);";
            var text = await LibraryCall.PrintAsync(places, code);
            var end = text.LastIndexOf('\n') + 1;
            Console.Write(text[..end]);
            return text[end..] == bool.TrueString ? 0 : CommandLine.Failed;
        });
        return command;
    }
}

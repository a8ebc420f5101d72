using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace JumpAnalytics.Runner;

/// <summary>
/// A value that a notebook lets its user set: one line <c>var name = literal; // help</c> of its parameters cell.
/// The default is a string, a double, an int or a bool; its type is the parameter's type.
/// </summary>
internal sealed partial record Parameter(string Name, object Default, string Help)
{
    /// <summary>The option on the command line: <c>maxWind</c> is <c>--max-wind</c>.</summary>
    public string Option => "--" + WordStart().Replace(Name, "-$0").Replace('_', '-').ToLowerInvariant();

    /// <summary>Whether it names a file or folder: only <c>data</c> does.</summary>
    public bool IsPath => Name == "data" && Default is string;

    /// <summary>The default as one would type it.</summary>
    public string DefaultText =>
        Default is bool flag ? (flag ? "true" : "false") : Convert.ToString(Default, CultureInfo.InvariantCulture)!;

    /// <summary>The type in plain words.</summary>
    public string Kind => Default switch { string => "text", int => "whole number", double => "number", _ => "true or false" };

    /// <summary>Reads a typed value of the default's type that the help allows, or says why that cannot be.</summary>
    public bool TryRead(string text, out object value, out string error)
    {
        var culture = CultureInfo.InvariantCulture;
        value = Default switch
        {
            string => text,
            int when int.TryParse(text, NumberStyles.AllowLeadingSign, culture, out var whole) => whole,
            double when double.TryParse(text, NumberStyles.Float, culture, out var number) && double.IsFinite(number) => number,
            bool when bool.TryParse(text, out var flag) => flag,
            _ => DBNull.Value,
        };
        var fault = value is DBNull ? $"is not of type {Kind}" : ParameterRule.Fault(Help, text);
        error = fault is null ? "" : $"{Option} '{text}' {fault} (default {DefaultText}).";
        return error.Length == 0;
    }

    /// <summary>The statement that sets it, its literal typed like the default.</summary>
    public string Assign(object value)
    {
        var literal = SymbolDisplay.FormatPrimitive(value, quoteStrings: true, useHexadecimalNumbers: false)!;
        var name = SyntaxFacts.GetKeywordKind(Name) == SyntaxKind.None ? Name : "@" + Name;
        return $"{name} = {(value is double && literal.All(c => char.IsAsciiDigit(c) || c == '-') ? literal + ".0" : literal)};";
    }

    /// <summary>The parameters of a notebook, in its order. Whatever is not of the form above is refused.</summary>
    public static IReadOnlyList<Parameter> Of(Notebook notebook)
    {
        if (notebook.ParametersCell is not { } cell) return [];

        var tree = CSharpSyntaxTree.ParseText(cell.Source, new CSharpParseOptions(kind: SourceCodeKind.Script));
        return [.. tree.GetCompilationUnitRoot().Members.Select(member => Read(member)
            ?? throw new NotebookException(
                $"{notebook.Name}: line {tree.GetLineSpan(member.Span).StartLinePosition.Line + 1} of the parameters cell is "
                + $"not 'var name = literal; // help' (text, number, true or false): {member}"))];
    }

    private static Parameter? Read(MemberDeclarationSyntax member)
    {
        if (member.ContainsDiagnostics
            || member is not FieldDeclarationSyntax { Declaration: { Type.IsVar: true,
                Variables: [{ Initializer.Value: var literal } variable] } }
            || Value(literal) is not { } value)
            return null;

        var comment = member.GetTrailingTrivia().FirstOrDefault(trivia => trivia.IsKind(SyntaxKind.SingleLineCommentTrivia));
        return new Parameter(variable.Identifier.ValueText, value, comment.ToString().TrimStart('/').Trim());
    }

    private static object? Value(ExpressionSyntax expression) => expression switch
    {
        LiteralExpressionSyntax { Token.Value: string or double or int or bool } literal => literal.Token.Value,
        PrefixUnaryExpressionSyntax { RawKind: (int)SyntaxKind.UnaryMinusExpression } minus => Value(minus.Operand) switch
        {
            int whole => -whole,
            double number => -number,
            _ => null,
        },
        _ => null,
    };

    [GeneratedRegex("(?<=[a-z0-9])[A-Z]")]
    private static partial Regex WordStart();
}

using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace JumpAnalytics.Mutants;

/// <summary>The faults that can be put into a source file: wrong comparisons, signs, constants, names and lost statements.</summary>
internal static class Mutations
{
    private static readonly Dictionary<SyntaxKind, string[]> Operators = new()
    {
        [SyntaxKind.LessThanToken] = ["<=", ">"],
        [SyntaxKind.LessThanEqualsToken] = ["<", ">"],
        [SyntaxKind.GreaterThanToken] = [">=", "<"],
        [SyntaxKind.GreaterThanEqualsToken] = [">", "<"],
        [SyntaxKind.EqualsEqualsToken] = ["!="],
        [SyntaxKind.ExclamationEqualsToken] = ["=="],
        [SyntaxKind.AmpersandAmpersandToken] = ["||"],
        [SyntaxKind.BarBarToken] = ["&&"],
        [SyntaxKind.PlusToken] = ["-"],
        [SyntaxKind.MinusToken] = ["+"],
        [SyntaxKind.AsteriskToken] = ["/"],
        [SyntaxKind.SlashToken] = ["*"],
    };

    private static readonly Dictionary<string, string> Names = new()
    {
        ["Any"] = "All", ["All"] = "Any", ["Min"] = "Max", ["Max"] = "Min", ["MinBy"] = "MaxBy", ["MaxBy"] = "MinBy",
        ["First"] = "Last", ["Last"] = "First", ["Floor"] = "Ceiling", ["Ceiling"] = "Floor", ["Sin"] = "Cos", ["Cos"] = "Sin",
        ["OrderBy"] = "OrderByDescending", ["OrderByDescending"] = "OrderBy", ["TakeWhile"] = "SkipWhile", ["Take"] = "Skip",
        ["StartsWith"] = "EndsWith", ["EndsWith"] = "StartsWith",
    };

    public static IEnumerable<Mutant> Of(string file, SyntaxTree tree)
    {
        foreach (var node in tree.GetRoot().DescendantNodes(n => n is not AttributeListSyntax))
        {
            foreach (var (at, instead) in Changes(node))
            {
                var line = tree.GetLineSpan(at).StartLinePosition.Line;
                var text = tree.GetText();
                yield return new(
                    file, line + 1, at.Start, at.Length, text.ToString(at), instead, text.Lines[line].ToString().Trim());
            }
        }
    }

    private static IEnumerable<(Microsoft.CodeAnalysis.Text.TextSpan At, string Instead)> Changes(SyntaxNode node)
    {
        switch (node)
        {
            case BinaryExpressionSyntax b when Operators.TryGetValue(b.OperatorToken.Kind(), out var others) && !IsText(b):
                return others.Select(o => (b.OperatorToken.Span, o));
            case PrefixUnaryExpressionSyntax { RawKind: (int)SyntaxKind.LogicalNotExpression } not:
                return [(not.OperatorToken.Span, "")];
            case PrefixUnaryExpressionSyntax { RawKind: (int)SyntaxKind.UnaryMinusExpression } minus:
                return [(minus.OperatorToken.Span, "")];
            case RelationalPatternSyntax p when Operators.TryGetValue(p.OperatorToken.Kind(), out var others):
                return others.Select(o => (p.OperatorToken.Span, o));
            case LiteralExpressionSyntax { RawKind: (int)SyntaxKind.TrueLiteralExpression } yes: return [(yes.Span, "false")];
            case LiteralExpressionSyntax { RawKind: (int)SyntaxKind.FalseLiteralExpression } no: return [(no.Span, "true")];
            case LiteralExpressionSyntax { RawKind: (int)SyntaxKind.NumericLiteralExpression } number when Other(number.Token) is { } other:
                return [(number.Span, other)];
            case ConditionalExpressionSyntax c:
                return [(c.Condition.Span, $"!({c.Condition})")];
            case IfStatementSyntax i:
                return [(i.Condition.Span, $"!({i.Condition})")];
            case ExpressionStatementSyntax { Expression: InvocationExpressionSyntax or AssignmentExpressionSyntax } done
                when !done.ToString().StartsWith("Guard.", StringComparison.Ordinal):
                return [(done.Span, ";")];
            case MemberAccessExpressionSyntax { Parent: InvocationExpressionSyntax } call
                when Names.TryGetValue(call.Name.Identifier.Text, out var swapped):
                return [(call.Name.Identifier.Span, swapped)];
            default: return [];
        }
    }

    /// <summary>A sum of texts: a minus between them does not compile, and is not tried.</summary>
    private static bool IsText(BinaryExpressionSyntax b) => b.DescendantNodes()
        .Any(n => n.IsKind(SyntaxKind.StringLiteralExpression) || n.IsKind(SyntaxKind.InterpolatedStringExpression));

    private static string? Other(SyntaxToken number) => number.Value switch
    {
        int n => (n + 1).ToString(CultureInfo.InvariantCulture),
        double x => x == 0 ? "1.0" : (x * 1.1).ToString("R", CultureInfo.InvariantCulture) is var t && t.AsSpan().ContainsAny(".E")
            ? t : t + ".0",
        _ => null,
    };
}

using System.Collections.Concurrent;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace JumpAnalytics.Tests;

/// <summary>One use of a symbol: where it is used, what it is, and the file that declares it.</summary>
internal sealed record SymbolUse(string File, int Line, ISymbol Symbol, string DeclaredIn)
{
    /// <summary>A type by its name, a member with the type it belongs to.</summary>
    public string Name => Symbol is INamedTypeSymbol ? Symbol.Name : $"{Symbol.ContainingType.Name}.{Symbol.Name}";
}

/// <summary>
/// Every use that sources make of what other files of the same project declare: types, members, attributes, calls of extensions,
/// constructors without a name, indexers, operators, conversions, loops and deconstructions; types that <c>var</c> leaves unsaid too.
/// </summary>
internal sealed class SymbolUses
{
    private readonly ConcurrentBag<string> _unbound = [];
    private readonly bool _hasConversions;

    public SymbolUses(CSharpCompilation compilation)
    {
        _hasConversions = compilation.ContainsSymbolsWithName(WellKnownMemberNames.ImplicitConversionName, SymbolFilter.Member);
        All =
        [
            .. compilation.SyntaxTrees.AsParallel()
                .SelectMany(tree => In(tree, compilation.GetSemanticModel(tree)))
                .OrderBy(u => u.File, StringComparer.Ordinal).ThenBy(u => u.Line).ThenBy(u => u.Name, StringComparer.Ordinal),
        ];
    }

    public IReadOnlyList<SymbolUse> All { get; }

    /// <summary>Names that mean nothing, because a source does not compile or a reference is missing: they could hide a use.</summary>
    public IReadOnlyCollection<string> Unbound => _unbound;

    private List<SymbolUse> In(SyntaxTree tree, SemanticModel model)
    {
        var uses = new Dictionary<(int Line, ISymbol Symbol), SymbolUse>();
        foreach (var node in tree.GetRoot().DescendantNodes())
        {
            foreach (var symbol in SymbolsOf(node, model).SelectMany(Parts))
            {
                if (HomeOf(symbol) is not { } home || home == tree.FilePath) continue;
                var line = LineOf(node);
                uses.TryAdd((line, symbol), new(tree.FilePath, line, symbol, home));
            }
        }
        return [.. uses.Values];
    }

    private IEnumerable<ISymbol?> SymbolsOf(SyntaxNode node, SemanticModel model)
    {
        switch (node)
        {
            case SimpleNameSyntax name:
                var meant = model.GetSymbolInfo(name);
                if (meant.Symbol is null && meant.CandidateReason != CandidateReason.MemberGroup && !IsNoName(name))
                    _unbound.Add($"{node.SyntaxTree.FilePath}:{LineOf(node)}: {name}");
                yield return meant.Symbol ?? meant.CandidateSymbols.FirstOrDefault();
                break;
            case BinaryExpressionSyntax or PrefixUnaryExpressionSyntax or PostfixUnaryExpressionSyntax or CastExpressionSyntax
                or BaseObjectCreationExpressionSyntax or ElementAccessExpressionSyntax or ElementBindingExpressionSyntax
                or ConstructorInitializerSyntax or PrimaryConstructorBaseTypeSyntax or SelectOrGroupClauseSyntax or OrderingSyntax:
                yield return model.GetSymbolInfo(node).Symbol;
                break;
            case AssignmentExpressionSyntax assignment:
                yield return model.GetSymbolInfo(assignment).Symbol;
                yield return model.GetDeconstructionInfo(assignment).Method;
                break;
            case QueryClauseSyntax clause:
                yield return model.GetQueryClauseInfo(clause).OperationInfo.Symbol;
                break;
            case CommonForEachStatementSyntax loop:
                var steps = model.GetForEachStatementInfo(loop);
                yield return steps.GetEnumeratorMethod;
                yield return steps.ElementType;
                if (loop is ForEachVariableStatementSyntax taken) yield return model.GetDeconstructionInfo(taken).Method;
                break;
        }
        if (node is not ExpressionSyntax expression) yield break;
        if (expression.Parent is InitializerExpressionSyntax) yield return model.GetCollectionInitializerSymbolInfo(expression).Symbol;
        if (_hasConversions) yield return model.GetConversion(expression).MethodSymbol;
    }

    /// <summary>Words of the language, and names that an alias makes up.</summary>
    private static bool IsNoName(SimpleNameSyntax name) =>
        name.Parent is NameEqualsSyntax { Parent: UsingDirectiveSyntax } || name.Identifier.Text is "nameof" or "notnull" or "_";

    private static int LineOf(SyntaxNode node) => node.GetLocation().GetLineSpan().StartLinePosition.Line + 1;

    /// <summary>A symbol as it was declared; of a type made of others, these too.</summary>
    private static IEnumerable<ISymbol> Parts(ISymbol? symbol) => symbol switch
    {
        INamedTypeSymbol type => type.TypeArguments.SelectMany(Parts).Append(type.OriginalDefinition),
        IArrayTypeSymbol array => Parts(array.ElementType),
        IMethodSymbol method => [(method.ReducedFrom ?? method).OriginalDefinition],
        IFieldSymbol { ContainingType.IsTupleType: true } => [],
        IFieldSymbol or IPropertySymbol or IEventSymbol => [symbol.OriginalDefinition],
        _ => [],
    };

    /// <summary>
    /// The file that declares a symbol. A type in several parts is at home in the file that bears its name;
    /// what the compiler adds to a type is declared with the type.
    /// </summary>
    private static string? HomeOf(ISymbol symbol)
    {
        var files = symbol.DeclaringSyntaxReferences.Select(r => r.SyntaxTree.FilePath).Distinct().ToList();
        return files.Count switch
        {
            0 => symbol.ContainingType is { } type ? HomeOf(type) : null,
            1 => files[0],
            _ => files.Find(f => Path.GetFileNameWithoutExtension(f) == symbol.Name) ?? files.Min(StringComparer.Ordinal),
        };
    }
}

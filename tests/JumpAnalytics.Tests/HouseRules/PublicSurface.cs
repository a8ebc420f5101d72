using Microsoft.CodeAnalysis;
using Generics = Microsoft.CodeAnalysis.SymbolDisplayGenericsOptions;
using OfMember = Microsoft.CodeAnalysis.SymbolDisplayMemberOptions;
using OfParameter = Microsoft.CodeAnalysis.SymbolDisplayParameterOptions;
using Other = Microsoft.CodeAnalysis.SymbolDisplayMiscellaneousOptions;

namespace JumpAnalytics.Tests;

/// <summary>
/// What a user of a project can name, as sorted text: each public type with its base and interfaces, and below it its members.
/// Left out is what a record or an override adds and nobody would miss in a review.
/// </summary>
internal static class PublicSurface
{
    private static readonly SymbolDisplayFormat _types = new(
        typeQualificationStyle: SymbolDisplayTypeQualificationStyle.NameAndContainingTypes,
        genericsOptions: Generics.IncludeTypeParameters | Generics.IncludeVariance | Generics.IncludeTypeConstraints,
        miscellaneousOptions: Other.UseSpecialTypes | Other.IncludeNullableReferenceTypeModifier | Other.EscapeKeywordIdentifiers);

    private static readonly SymbolDisplayFormat _members = _types
        .WithMemberOptions(OfMember.IncludeParameters | OfMember.IncludeType | OfMember.IncludeModifiers | OfMember.IncludeRef
            | OfMember.IncludeConstantValue)
        .WithParameterOptions(OfParameter.IncludeParamsRefOut | OfParameter.IncludeType | OfParameter.IncludeName
            | OfParameter.IncludeDefaultValue | OfParameter.IncludeExtensionThis)
        .AddMiscellaneousOptions(Other.AllowDefaultLiteral);

    public static string Of(CompiledSources sources) => string.Concat(
        Types(sources.Compilation.Assembly.GlobalNamespace)
            .Select(t => (Name: t.ToDisplayString(_types), Type: t))
            .OrderBy(t => t.Name, StringComparer.Ordinal)
            .Select(t => Header(t.Type, t.Name) + "\n" + string.Concat(Members(t.Type).Select(m => $"    {m}\n"))));

    private static IEnumerable<INamedTypeSymbol> Types(INamespaceOrTypeSymbol holder) => holder.GetMembers().SelectMany(m => m switch
    {
        INamespaceSymbol inner => Types(inner),
        INamedTypeSymbol { DeclaredAccessibility: Accessibility.Public } type => Types(type).Prepend(type),
        _ => [],
    });

    private static string Header(INamedTypeSymbol type, string name)
    {
        var way = type switch
        {
            { TypeKind: TypeKind.Struct, IsReadOnly: true } => "readonly ",
            { TypeKind: TypeKind.Class, IsStatic: true } => "static ",
            { TypeKind: TypeKind.Class, IsAbstract: true } => "abstract ",
            { TypeKind: TypeKind.Class, IsSealed: true } => "sealed ",
            _ => "",
        };
        var word = type.TypeKind.ToString().ToLowerInvariant();
        var kind = way + (!type.IsRecord ? word : type.TypeKind == TypeKind.Struct ? "record struct" : "record");
        var bases = type.Interfaces.Where(i => !(type.IsRecord && i.Name == nameof(IEquatable<>)));
        if (type.BaseType is { SpecialType: SpecialType.None } above) bases = bases.Prepend(above);
        var named = bases.Where(b => b.DeclaredAccessibility == Accessibility.Public).Select(b => b.ToDisplayString(_types));
        var names = string.Join(", ", named);
        return $"{kind} {name}{(names.Length > 0 ? " : " + names : "")}";
    }

    private static IEnumerable<string> Members(INamedTypeSymbol type) => type.TypeKind == TypeKind.Enum
        ? type.GetMembers().OfType<IFieldSymbol>().Select(f => $"{f.Name} = {f.ConstantValue}")
        : type.GetMembers().Where(m => IsSeen(m, type))
            .OrderBy(m => m.Name, StringComparer.Ordinal).ThenBy(Line, StringComparer.Ordinal).Select(Line);

    private static bool IsSeen(ISymbol member, INamedTypeSymbol type) =>
        member is not (INamedTypeSymbol or IMethodSymbol { AssociatedSymbol: not null })
        && member.DeclaredAccessibility is (Accessibility.Public or Accessibility.Protected or Accessibility.ProtectedOrInternal)
        && !member.IsOverride
        && (!member.IsImplicitlyDeclared || IsConstructorOfClass(member, type));

    private static bool IsConstructorOfClass(ISymbol member, INamedTypeSymbol type) =>
        member is IMethodSymbol { MethodKind: MethodKind.Constructor } && type is { TypeKind: TypeKind.Class, IsRecord: false };

    private static string Line(ISymbol member)
    {
        var text = member.ToDisplayString(_members);
        if (member is not IPropertySymbol property) return text;
        var set = property.SetMethod?.IsInitOnly == true ? "init" : "set";
        return $"{text} {{{Word(property.GetMethod, "get")}{Word(property.SetMethod, set)} }}";
    }

    private static string Word(IMethodSymbol? accessor, string word) =>
        accessor?.DeclaredAccessibility == Accessibility.Public ? $" {word};" : "";
}

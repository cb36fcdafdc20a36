"""`scopegen completion`: a shell completes the commands, their options, files and the names of rules."""

from __future__ import annotations

import click

from scopegen.cli.spoken import Spoken
from scopegen.cli.voice import result


@click.command(cls=Spoken)
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Print the script that lets SHELL complete what you type.

    \b
    bash: scopegen completion bash > ~/.local/share/bash-completion/completions/scopegen
    zsh:  scopegen completion zsh > FOLDER/_scopegen, FOLDER being one of $fpath
    fish: scopegen completion fish > ~/.config/fish/completions/scopegen.fish
    """
    from click.shell_completion import get_completion_class

    kind = get_completion_class(shell)
    root = click.get_current_context().find_root()
    assert kind is not None
    # the shell calls the program by this name, and the variable asks it for words in place of a run
    result(kind(root.command, {}, "scopegen", "_SCOPEGEN_COMPLETE").source().rstrip())


def rules_that_begin(
    context: click.Context, parameter: click.Parameter, begun: str
) -> list[click.shell_completion.CompletionItem]:
    """The rules whose names begin so, each with what it asks."""
    from click.shell_completion import CompletionItem

    from scopegen.manual import PAGES

    return [CompletionItem(page.id, help=page.rule.asks) for page in PAGES if page.id.startswith(begun)]

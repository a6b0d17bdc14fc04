import pytest
from click.testing import CliRunner

from cueladder.cli import main


def run(*words):
    return CliRunner().invoke(main, ["odds", *words])


def test_the_odds_command_prints_the_figures_of_each_family():
    said = run().output
    assert "0.122; 16.2" in said
    assert "0.419; 17.4" in said
    assert "(144 states)" in said


def test_the_odds_command_shows_a_rule_beside_the_default():
    said = run("--rule", '{"family": "run", "n": 12}').output
    assert "run n=12" in said
    assert said.startswith("right, of 100")
    assert "changepoint" in said


@pytest.mark.parametrize("rule", ['{"family"', "7", '{"family": "run"}'])
def test_the_odds_command_says_what_is_wrong_with_a_rule(rule):
    result = run("--rule", rule)
    assert result.exit_code == 1
    assert "Error: --rule" in result.output

from tests.agree import compare


def test_phone_and_server_agree_on_every_state_of_random_histories():
    states, disagree = compare(600, seed=20261125)
    assert states > 10_000
    assert disagree == 0

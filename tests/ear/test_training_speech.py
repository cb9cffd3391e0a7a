"""What the ear is trained on: talk of several people alone, clips cut close, phrases torn by talk."""

# ruff: noqa: S311 - draws of training speech, no secrets

from __future__ import annotations

import random

import pytest

from scripts.ear import competitors

torch = pytest.importorskip(
    "torch", reason="torch is not installed: the training speech is not tested here"
)

from scripts.ear import augment, corpus  # noqa: E402
from scripts.ear.phones import GENERAL_PDF, SILENCE_PDF  # noqa: E402

SECOND = 16_000
OUTPUTS = 53  # of one second with ten outputs of silence on either side: (1 + 0.6) s / 0.03 s


def one_clip() -> corpus.Corpus:
    """Return a clip of one second: 0.3 s of silence, 0.4 s of a tone, 0.3 s of silence."""
    sound = torch.zeros(SECOND, dtype=torch.int16)
    tone = 8000 * torch.sin(torch.arange(6400) * 0.3)
    sound[4800:11_200] = tone.to(torch.int16)
    said = [corpus.Said(0, SECOND, "next", "tone")]
    pdf = torch.full((OUTPUTS,), SILENCE_PDF, dtype=torch.int16)
    pdf[20:33] = 5  # 0.3 to 0.7 s, after ten outputs of silence
    labels = corpus.Labels(
        pdf,
        torch.zeros(OUTPUTS, dtype=torch.int16),
        torch.tensor([0]),
        torch.tensor([OUTPUTS]),
        torch.tensor([True]),
    )
    return corpus.Corpus(said, sound, {1.0: labels})


def drawn(way: corpus.Way) -> corpus.Batch:
    return corpus.draw(one_clip(), augment.Cepstra(torch.device("cpu")), [0], way)


def test_several_who_talk_at_once_are_general_speech_from_end_to_end() -> None:
    batch = drawn(corpus.Way(1.0, 1.0, 0.0, crowded=True))

    heard = batch.labels[batch.labels >= 0]
    assert len(heard) == int(batch.counts)
    assert set(heard.tolist()) == {GENERAL_PDF}
    assert batch.no_words


def test_speech_played_backwards_holds_no_words() -> None:
    assert drawn(corpus.Way(1.0, 1.0, 0.0, backwards=True)).no_words


def test_a_clip_cut_close_keeps_its_sounds_under_their_labels(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(corpus, "CUT_SHARE", 1.0)
    torch.manual_seed(4)

    for _ in range(12):
        batch = drawn(corpus.Way(1.0, 1.0, 0.0))
        assert not batch.no_words
        kept = batch.labels[0, : int(batch.counts)].tolist()
        voiced = [place for place, pdf in enumerate(kept) if pdf == 5]
        assert voiced[0] <= 5, "at most four outputs of silence before the voice, and rounding"
        assert 11 <= len(voiced) <= 13, "of 13 outputs one or two may be cut away"
        assert len(kept) - voiced[-1] <= 9


def test_edges_of_a_clip_are_where_its_voice_is() -> None:
    clip = one_clip()
    waves, samples = corpus.waves_of(clip, [0])

    begins, ends = corpus._edges(waves, samples)
    assert int(begins) == 4800 // corpus.OUTPUT_STEP == 10
    assert int(ends) == 11_199 // corpus.OUTPUT_STEP == 23


def test_a_crowd_has_as_many_talkers_as_are_asked_for_at_least() -> None:
    # One talker who says 1 all the time has a level of 1; five more add up to 1 each.
    torch.manual_seed(2)
    sound = torch.full((SECOND,), 1000, dtype=torch.int16)

    six = augment.crowd(sound, 20, 500, fewest=6)
    assert six.shape == (20, 500)
    softest, loudest = 6 * 10 ** (-4 / 20), 6.0
    assert softest <= float(six.min()) <= float(six.max()) <= loudest
    assert float(augment.crowd(sound, 50, 500).min()) < softest, "fewer talk where one may"


def test_noise_is_laid_as_far_below_the_voice_as_told() -> None:
    voice, noise = torch.full((1, 1000), 0.5), torch.ones(1, 1000)

    mixed = augment.add_noise(voice, noise, torch.tensor([20.0]))
    assert torch.allclose(mixed - voice, torch.full((1, 1000), 0.05))


def test_a_torn_phrase_is_never_the_phrase_and_keeps_some_of_it() -> None:
    rng = random.Random(3)

    torn = {competitors.torn("what's left", rng) for _ in range(300)}
    assert "what's left" not in torn
    assert {"left", "what's"} <= torn
    assert any(text.endswith(" what's left") for text in torn)
    assert all({"what's", "left"} & set(text.split()) for text in torn)
    assert "" not in {competitors.torn("next", rng) for _ in range(50)}

"""A copy of a recording in which private words are silence. PyAV decodes and writes it, block by block.

Times are kept: what the source's clock skips is filled with silence, as hearing does (`hear/sound.py`), so that
second 61 of the copy is second 61 of the source. No title, date, place or cover of the source goes along.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt

from fieldnotes.errors import RecordingError

if TYPE_CHECKING:
    from av import AudioFrame
    from av.audio.stream import AudioStream
    from av.container import InputContainer

LOSSLESS = ("pcm_", "flac", "alac", "wavpack", "tta", "ape")
OPUS_RATE = 48_000
OPUS_BIT_RATE = 64_000
GAP_S = (0.1, 600.0)  # as in hearing: smaller jumps are jitter of the clock, larger ones are broken clocks
OPUS_MARGIN_S = 0.03  # what a lossy encoder smears in and out of a stretch is cut off on both sides
BLOCK = 4096
Block = npt.NDArray[Any]  # (channels, n)


def silenced_copy(source: Path, target_stem: Path, silences: Sequence[tuple[float, float]]) -> Path:
    """The copy's path: `target_stem` with ".flac" where the source is lossless, else with ".opus".

    `silences` are [start, end) in seconds of the recording's own clock, which hearing gives; every sample in
    them is zero before encoding. Raises RecordingError when the source cannot be decoded.
    """
    import av

    try:
        with (
            source.open("rb") as file,
            av.open(file, "r", metadata_errors="ignore", options={"protocol_whitelist": "none"}) as container,
        ):
            if not container.streams.audio:
                raise RecordingError(f"{source}: has no sound track, so no copy of it can be made")
            stream = container.streams.audio[0]
            name = stream.codec_context.name
            lossless = name.startswith(LOSSLESS)
            target = target_stem.with_name(target_stem.name + (".flac" if lossless else ".opus"))
            _write(container, stream, target, silences, lossless)
            return target
    except (av.error.FFmpegError, OSError, ValueError) as fault:
        raise RecordingError(f"{source}: cannot be decoded, so no copy of it can be made") from fault


def _write(
    container: InputContainer,
    stream: AudioStream,
    target: Path,
    silences: Sequence[tuple[float, float]],
    lossless: bool,
) -> None:
    """Encodes the whole stream; the frames that come out are counted, so that times follow from samples."""
    import av

    form, rate, layout = _form(stream, lossless)
    # without the bit-exact flags the muxer writes its version, and Ogg a serial number by chance
    flags = {"fflags": "+bitexact"}
    with av.open(str(target), "w", format="flac" if lossless else "ogg", options=flags) as out:
        written = out.add_stream("flac" if lossless else "libopus", rate=rate)
        assert isinstance(written, av.AudioStream)
        written.layout, written.format = layout, form
        written.codec_context.options = {"flags": "+bitexact"}
        if not lossless:
            written.bit_rate = OPUS_BIT_RATE
        elif form == "s32":
            written.codec_context.options = {"flags": "+bitexact", "bits_per_raw_sample": "24"}
        margin = 0.0 if lossless else OPUS_MARGIN_S
        wide = [(start - margin, end + margin) for start, end in silences]
        done = 0
        for block in _blocks(container, stream, form, rate, layout):
            quiet = _silenced(block, done, rate, wide)
            frame = _frame(quiet, form, rate, layout)
            frame.pts = done
            done += block.shape[1]
            out.mux(written.encode(frame))
        out.mux(written.encode(None))
        if not done:
            raise RecordingError(f"{container.name}: holds no sound that can be decoded")


def _form(stream: AudioStream, lossless: bool) -> tuple[str, int, str]:
    """Sample format, rate and layout of the copy."""
    context = stream.codec_context
    mono = stream.layout.nb_channels == 1
    if not lossless:
        return "flt", OPUS_RATE, "mono" if mono else "stereo"
    wide = context.format.bytes > 2 if context.format is not None else False
    return "s32" if wide else "s16", context.sample_rate, stream.layout.name


def _blocks(
    container: InputContainer, stream: AudioStream, form: str, rate: int, layout: str
) -> Iterator[Block]:
    """The sound in planes, (channels, n), from the first sample on; gaps of the clock are zeros."""
    from av.audio.resampler import AudioResampler

    resampler, first_s, seen, read_rate = None, None, 0.0, None
    for frame in _decoded(container, stream):
        first_s = frame.time or 0.0 if first_s is None else first_s
        gap_s = frame.time - first_s - seen if frame.time is not None else 0.0
        if GAP_S[0] < gap_s < GAP_S[1]:
            yield from _zeros(round(gap_s * rate), layout, form)
            seen += gap_s
        known = (frame.format.name, frame.layout.name, frame.sample_rate)
        if resampler is None or known != read_rate:
            if resampler is not None:
                yield from (_planes(out) for out in resampler.resample(None))
            resampler, read_rate = AudioResampler(format=form, layout=layout, rate=rate), known
        seen += frame.samples / frame.sample_rate
        frame.pts = None
        yield from (_planes(out) for out in resampler.resample(frame))
    if resampler is not None:
        yield from (_planes(out) for out in resampler.resample(None))


def _decoded(container: InputContainer, stream: AudioStream) -> Iterator[AudioFrame]:
    """All frames that can be decoded; damaged packets are passed over, as in hearing."""
    import av

    packets = container.demux(stream)
    while True:
        try:
            packet = next(packets)
        except (StopIteration, av.error.FFmpegError, OSError):
            return
        try:
            yield from packet.decode()
        except (av.error.FFmpegError, OSError):
            continue


def _planes(frame: AudioFrame) -> Block:
    packed: Block = frame.to_ndarray()
    return packed.reshape(-1, frame.layout.nb_channels).T


def _zeros(count: int, layout: str, form: str) -> Iterator[Block]:
    import av

    channels = av.AudioLayout(layout).nb_channels
    kinds = {"s16": np.int16, "s32": np.int32, "flt": np.float32}
    for at in range(0, count, BLOCK):
        yield np.zeros((channels, min(BLOCK, count - at)), dtype=kinds[form])


def _silenced(block: Block, first: int, rate: int, silences: Sequence[tuple[float, float]]) -> Block:
    """The block with zeros in the stretches; its first sample is the copy's sample `first`."""
    quiet = block.copy()
    for start_s, end_s in silences:
        begin = max(int(np.floor(start_s * rate)) - first, 0)
        quiet[:, begin : max(int(np.ceil(end_s * rate)) - first, 0)] = 0
    return quiet


def _frame(block: Block, form: str, rate: int, layout: str) -> AudioFrame:
    import av

    packed = np.ascontiguousarray(block.T).reshape(1, -1)
    frame = av.AudioFrame.from_ndarray(packed, format=form, layout=layout)
    frame.sample_rate = rate
    return frame

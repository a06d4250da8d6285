"""From a message in to the answer that is planned: who wrote it, what they said, what to answer."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import count
from uuid import uuid4

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage, OutgoingMessage
from bot.channels.sms.phone_number import Texting
from bot.channels.sms.segments import segments
from bot.channels.traits import traits_of
from bot.conversation.added_way import tell_of_new_way
from bot.conversation.change_settings import welcome_on_channel
from bot.conversation.conversation_state import Author, find_authors, load_state, save_state
from bot.conversation.crew_people import others
from bot.conversation.new_crews import FoundingRefusedError, NewCrews
from bot.conversation.newcomers import Arrival, arrive, join_further, keeps_silent, meet
from bot.conversation.pressed_buttons import take_button_off
from bot.conversation.respond import Answered, respond
from bot.conversation.set_up import first_morning
from bot.conversation.several_crews import respond_among
from bot.conversation.turn import Turn
from bot.conversation.work_out_morning import caution_if_due
from bot.delivery import inbox
from bot.delivery.albums import came_before
from bot.delivery.answer_limit import Answering, AnswerLimit
from bot.delivery.empty_messages import FORGOTTEN
from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import InboxRow
from bot.delivery.notices_to_owners import tell_left_out
from bot.delivery.outbox import (
    NO_TOPIC,
    Planned,
    Recipient,
    Topic,
    crew_names,
    next_address,
    of_their_crew,
    plan,
)
from bot.delivery.rules import Purpose
from bot.reading.result import CommandName
from bot.settings.founding import Founding
from bot.wording import codes
from bot.wording import crew as words
from bot.wording.consent_texts import no_more_today, number_added
from bot.wording.crews_named import in_several
from bot.wording.help import went_wrong
from bot.wording.message import Message
from scheduling.entries import struck
from scheduling.entry_kinds import EntryKind
from scheduling.records.addresses import crews_together, find_people
from scheduling.records.crew_records import CrewRecords
from scheduling.records.invites import InviteError, InviteProblem
from scheduling.records.tables import PersonRow
from scheduling.wall_time import local_day

ANSWER_USEFUL = timedelta(days=1)
"""An answer that could not be delivered for this long is of no use any more."""


class MessageHandler:
    """Works messages in through, and plans their answers.

    Args:
        zone: the time zone a new crew starts with, until its owner says otherwise.
        founding: who may found a crew; ``serve`` gives what the owner set.
        invite_link: makes a link of an invite code, where a channel has links.
        texting: whether text messages can be sent, and how numbers are written.
        answer_limit: how much one number is answered within a day; None for any.
    """

    def __init__(
        self,
        zone: str = "UTC",
        invite_link: Callable[[str], str | None] = lambda _code: None,
        texting: Texting = Texting(),  # noqa: B008 - frozen
        founding: Founding = Founding.ANYBODY,
        answer_limit: AnswerLimit | None = None,
    ) -> None:
        self._answer_limit = answer_limit
        self._new_crews = NewCrews(zone, founding)
        self._invite_link = invite_link
        self._texting = texting

    def known_as(
        self, session: Session, message: IncomingMessage, now: datetime
    ) -> IncomingMessage:
        """Give a message the id under which it is known, or under which it is new."""
        return message if message.tap is None else _as_pressed(session, message, now)

    def apologize(self, session: Session, message: IncomingMessage, now: datetime) -> None:
        """Plan an answer to a message that could not be worked through."""
        self._queue(session, message, Message((went_wrong(),)), now)

    def handle(self, session: Session, message: IncomingMessage, now: datetime) -> Planned | None:
        """Work a message through; gives the answer that was planned."""
        try:
            return self._handle(session, message, now)
        except FoundingRefusedError:
            refused = codes.founding_refused(self._new_crews.founding)
        except InviteError as error:
            if error.problem is InviteProblem.TOLD:
                return None
            often = error.problem is InviteProblem.TOO_OFTEN
            refused = codes.too_often() if often else codes.code_refused()
        return self._queue(session, message, Message((refused,)), now)

    def _handle(self, session: Session, message: IncomingMessage, now: datetime) -> Planned | None:
        if message.in_group:
            return self._queue(session, message, Message((words.talk_in_private(),)), now)
        if not message.text.strip() and came_before(session, message):
            return None
        arrival = join_further(session, message, self._new_crews, now)
        if arrival is not None:
            return self._take_in(session, arrival, message, now)
        writers = find_authors(session, message)
        if not writers:
            return self._greet(session, message, now)
        turns = [self._turn(session, writer, message, now) for writer in writers]
        said = Answered(turns[0], respond(turns[0])) if len(turns) == 1 else respond_among(turns)
        people = [writer.person for writer in writers]
        before = next(person for person in people if person.id == said.turn.person.id)
        if keeps_silent(message, before, said.turn.person):
            return None
        take_button_off(said.turn, message, said.answer.pressed)
        return self._answer(said.turn, said.answer, asks=said.asks)

    def _turn(
        self, session: Session, writer: Author, message: IncomingMessage, now: datetime
    ) -> Turn:
        return Turn(
            session=session,
            records=CrewRecords(session, writer.person.crew_id),
            person=writer.person,
            message=message,
            now=now,
            state=writer.state,
            invite_link=self._invite_link,
            texting=self._texting,
        )

    def _answer(self, turn: Turn, answer: Message, *, asks: bool = False) -> Planned | None:
        """Queue the answer, with what did not fit kept for "more".

        One that asks for which crew a message was is an answer of no crew's.
        """
        if turn.is_out:
            # The last that goes there, and for nobody of the crew.
            kept = not turn.is_forgotten
            return self._queue(turn.session, turn.message, answer, turn.now, kept=kept)
        about = None if asks else turn.today
        planned = self._queue(turn.session, turn.message, answer, turn.now, turn.person.id, about)
        if asks:
            return planned
        state = replace(turn.state, more=answer.parts[1:])
        if state != turn.state_before:
            save_state(turn.session, turn.person.id, state)
        if not (turn.person.stopped and traits_of(turn.message.channel).needs_consent):
            to = _sender(turn.message, turn.person.id)
            caution_if_due(turn.session, turn.person, to, turn.now, Purpose.FIRST_CAUTION)
        crew, running = turn.person.crew_id, (turn.message.channel,)
        tell_left_out(turn.session, crew, turn.left_out, turn.now, running)
        return planned

    def _greet(self, session: Session, message: IncomingMessage, now: datetime) -> Planned | None:
        if traits_of(message.channel).needs_consent:
            return self._meet(session, message, now)
        arrival = arrive(session, message, self._new_crews, now)
        if arrival is None:
            return self._queue(
                session, message, Message((words.welcome(self._new_crews.founding),)), now
            )
        return self._take_in(session, arrival, message, now)

    def _meet(self, session: Session, message: IncomingMessage, now: datetime) -> Planned | None:
        answered = self._texting.answers_strangers_at(message.address)
        met, answer = meet(session, message, self._new_crews, now, answered=answered), None
        if met.answer is not None:
            answer = self._queue(session, message, met.answer, now)
        if met.arrival is not None:
            answer = self._take_in(session, met.arrival, message, now)
        return answer

    def _take_in(
        self, session: Session, arrival: Arrival, message: IncomingMessage, now: datetime
    ) -> Planned | None:
        state = load_state(session, arrival.person.id)
        turn = self._turn(session, Author(arrival.person, state), message, now)
        if arrival.command.name is not CommandName.ADD_CHANNEL:
            first_morning(arrival.person, turn)
        tell_of_new_way(turn, arrival.ways_before)
        return self._answer(turn, self._first_words(turn, arrival))

    def _first_words(self, turn: Turn, arrival: Arrival) -> Message:
        if arrival.command.name is CommandName.NUMBER:
            return Message((number_added(),))
        if arrival.command.name is CommandName.ADD_CHANNEL:
            return welcome_on_channel(turn)
        if arrival.command.name is CommandName.JOIN:
            _tell_others(turn)
            joined = words.crew_joined(turn.person.name, others(turn), list(turn.units))
            return Message((joined + _of_several(turn),))
        if arrival.command.name is CommandName.BEGIN:
            return Message((words.begun(turn.person.name),))
        return respond(turn)

    def _queue(
        self,
        session: Session,
        message: IncomingMessage,
        answer: Message,
        now: datetime,
        person_id: int | None = None,
        about: date | None = None,
        *,
        kept: bool = True,
    ) -> Planned | None:
        """Queue an answer, or that there are no more today; None if that was said before."""
        answering = Answering.ANSWER
        if kept:
            answering = self._answering(session, message, answer, now, person_id)
        if answering is Answering.NOTHING:
            return None
        said = answer if answering is Answering.ANSWER else Message.of(no_more_today())
        key = f"answer:{message.channel}:{message.id}" if kept else f"{FORGOTTEN}{uuid4().hex}"
        to, outgoing = _sender(message, person_id), said.outgoing(message.address)
        purpose = Purpose.FAREWELL if said.once else Purpose.ANSWER
        # What an edited message noted stands under the id of the message that it corrects.
        topic = Topic(message.corrects or message.id, answer.places) if kept else NO_TOPIC
        useful = now + ANSWER_USEFUL
        return plan(session, key, purpose, to, outgoing, now, useful, about, topic=topic)

    def _answering(
        self,
        session: Session,
        message: IncomingMessage,
        answer: Message,
        now: datetime,
        person_id: int | None,
    ) -> Answering:
        if self._answer_limit is None or answer.once or not traits_of(message.channel).is_charged:
            return Answering.ANSWER
        zone = "UTC" if person_id is None else session.get_one(PersonRow, person_id).zone
        at, day = (message.channel, message.address), local_day(now, zone)
        return self._answer_limit.take(session, *at, day, segments(answer.text))


def _of_several(turn: Turn) -> str:
    """Tell whoever is in one more crew how their crews are kept apart."""
    people = crews_together(turn.session, turn.person.id)
    return f"\n{in_several(crew_names(turn.session, people))}" if len(people) > 1 else ""


def _sender(message: IncomingMessage, person_id: int | None) -> Recipient:
    return Recipient(message.channel, message.address, person_id)


def _tell_others(turn: Turn) -> None:
    """Let the others of the crew know that somebody joined."""
    news = words.partner_joined(turn.person.name)
    for other in turn.records.people():
        to = next_address(turn.records, other.id, (turn.message.channel,))
        if other.id != turn.person.id and to is not None and not other.stopped:
            key = f"joined:{turn.person.id}:{other.id}"
            outgoing = OutgoingMessage(to.address, of_their_crew(turn.session, other.id, news))
            plan(turn.session, key, Purpose.NEWS, to, outgoing, turn.now)


_TAPPED_TWICE = timedelta(seconds=10)
"""Two taps within this time are one, even on a button that only asks."""


def _as_pressed(session: Session, message: IncomingMessage, now: datetime) -> IncomingMessage:
    """Give a tap the id under which it is known or new.

    A button whose entries all were taken back counts anew, and so does one that recorded nothing
    and was tapped a while ago; each time under a further id. The carrier's repetition of a tap is
    that tap.
    """
    tapped = message.id
    for number in count(2):
        known = inbox.find(session, message.channel, message.id)
        if known is None or known.tap == message.tap or not _spent(session, known, now):
            break
        message = replace(message, id=f"{tapped}#{number}")
    return message


def _spent(session: Session, known: InboxRow, now: datetime) -> bool:
    if known.state == InboxState.WAITING:
        return False
    people = find_people(session, known.channel, known.address)
    for records in [CrewRecords(session, person.crew_id) for person in people]:
        said = records.entries_from_message(known.channel, known.message_id)
        recorded = [entry for entry in said if entry.kind is not EntryKind.STRIKE]
        if recorded:
            gone = struck(records.entries())
            return all(entry.uid in gone for entry in recorded)
    return known.received_at <= now - _TAPPED_TWICE

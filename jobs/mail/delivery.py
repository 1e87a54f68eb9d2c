"""What waits is sent, one after another: taken once, tried three times, and it comes to an end."""

from __future__ import annotations

import datetime as dt
import logging
import time

from django.db import DatabaseError, InterfaceError, connection
from django.db.models import F
from django.utils import timezone

from jobs.mail.server import NotSentError, PerhapsSentError, send
from jobs.models import Message

State, Trouble = Message.State, Message.Trouble
# When it is tried once more.
AGAIN_AFTER = (dt.timedelta(minutes=1), dt.timedelta(minutes=10))
# Longer than any try takes: whoever had it is gone.
GONE = dt.timedelta(minutes=5)
# What waited longer is not what somebody wants sent now, or a back-up from before was restored.
OLD = dt.timedelta(days=1)
POLL, PATIENCE = 2.0, 10.0  # seconds

logger = logging.getLogger(__name__)


def deliver_on() -> None:
    """Send what waits, for as long as the process lives."""
    while True:
        try:
            if not deliver():
                time.sleep(POLL)
        except (DatabaseError, InterfaceError):
            logger.exception("The database does not answer; e-mails wait.")
            connection.close()
            time.sleep(PATIENCE)


def deliver() -> bool:
    """Send one message; returns whether there was any."""
    now = timezone.now()
    _settle_old(now)
    message = _take(now)
    if message is None:
        return False
    try:
        send(message)
    except NotSentError as error:
        _not_sent(message, error)
    except PerhapsSentError:
        _end(message, State.UNSURE, Trouble.MIDWAY)
    except (DatabaseError, InterfaceError):
        raise
    except Exception:
        # Nothing is known about it: better asked about than sent twice.
        logger.exception("Message %s stopped midway.", message.pk)
        _end(message, State.UNSURE, Trouble.MIDWAY)
    else:
        _end(message, State.SENT, "")
    return True


def _settle_old(now: dt.datetime) -> None:
    """Give up on what was begun by a process that is gone, and on what waited too long."""
    begun = Message.objects.filter(state=State.SENDING, began_at__lt=now - GONE)
    begun.update(state=State.UNSURE, trouble=Trouble.MIDWAY, ended_at=now)
    waits = Message.objects.filter(state=State.WAITING, asked_at__lt=now - OLD)
    waits.update(state=State.FAILED, trouble=Trouble.OLD, ended_at=now, next_at=None)


def _take(now: dt.datetime) -> Message | None:
    """Take the message that waits longest; two that try it never get the same one."""
    waiting = Message.objects.filter(state=State.WAITING, next_at__lte=now)
    for key in list(waiting.order_by("next_at", "pk").values_list("pk", flat=True)[:20]):
        begun = {"state": State.SENDING, "tries": F("tries") + 1, "began_at": now}
        if waiting.filter(pk=key).update(**begun):
            return Message.objects.select_related("job").get(pk=key)
    return None


def _not_sent(message: Message, error: NotSentError) -> None:
    if error.again and message.tries <= len(AGAIN_AFTER):
        at = timezone.now() + AGAIN_AFTER[message.tries - 1]
        _write(message, State.WAITING, trouble=error.trouble, reply=error.reply, next_at=at)
    else:
        _end(message, State.FAILED, error.trouble, reply=error.reply)


def _end(message: Message, state: Message.State, trouble: str, *, reply: int | None = None) -> None:
    _write(
        message, state, trouble=trouble, reply=reply, next_at=None, ended_at=timezone.now()
    )  # fmt: skip


def _write(message: Message, state: Message.State, **values: object) -> None:
    ours = Message.objects.filter(pk=message.pk, state=State.SENDING, began_at=message.began_at)
    ours.update(state=state, **values)
    logger.info("Message %s: %s, %s", message.pk, state, values["trouble"] or "no trouble")

"""Settings: one file, everything that differs between machines comes from the environment."""

import ipaddress
import secrets
from pathlib import Path
from typing import Any

import django_stubs_ext
import environ
from django.utils.translation import gettext_lazy as _

from config.public import public_host

BASE_DIR = Path(__file__).resolve().parent.parent
env = environ.Env()
# Lets forms and managers name the model they are for, as the type checker reads it.
django_stubs_ext.monkeypatch()

# Everything the app writes lives here: database, photos, issued sheets, the demo's secret key.
VAR_DIR = Path(env.str("UNDERTRIM_VAR", default=str(BASE_DIR / "var")))
VAR_DIR.mkdir(parents=True, exist_ok=True)
# Customers, sessions and passwords lie in it: nobody else on this machine reads them.
VAR_DIR.chmod(0o700)


def _secret_key() -> str:
    """Take the key from the environment, or keep one made on the first start."""
    given = env.str("UNDERTRIM_SECRET_KEY", default="")
    if given:
        return str(given)
    kept = VAR_DIR / "secret_key"
    if not kept.exists():
        kept.write_text(secrets.token_urlsafe(50))
        kept.chmod(0o600)
    return kept.read_text().strip()


SECRET_KEY = _secret_key()
DEBUG = env.bool("UNDERTRIM_DEBUG", default=False)
ALLOWED_HOSTS = env.list("UNDERTRIM_HOSTS", default=["127.0.0.1", "localhost"])
# Where everybody may come, such as https://panels.example: pages that are marked public answer
# there, and nothing else (jobs/pages/public/host.py). Empty: there is no such address.
PUBLIC = env.str("UNDERTRIM_PUBLIC", default="").rstrip("/")
PUBLIC_HOST = public_host(PUBLIC)
ALLOWED_HOSTS += [PUBLIC_HOST] if PUBLIC_HOST and PUBLIC_HOST not in ALLOWED_HOSTS else []
CSRF_TRUSTED_ORIGINS = env.list("UNDERTRIM_ORIGINS", default=[])
# Off by default because a workshop network often has no certificate; on behind a TLS proxy.
SECURE = env.bool("UNDERTRIM_TLS", default=False)
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = SECURE
SECURE_SSL_REDIRECT = SECURE
# What a phone has to trust before it can speak TLS to an installation with its own certificate.
AUTHORITY = env.str("UNDERTRIM_AUTHORITY", default="")
# The certificates the front shows, whose end the manager is told of.
CERTIFICATES = env.list("UNDERTRIM_CERTIFICATES", default=[])
# Where the nightly back-up goes.
BACKUPS = env.str("UNDERTRIM_BACKUPS", default=None)
SECURE_HSTS_SECONDS = 31_536_000 if SECURE else 0
# A workshop does not own every name under its domain, and should not bind those to TLS, nor enter
# itself into the lists that browsers ship: HSTS is for this name alone.
SILENCED_SYSTEM_CHECKS = ["security.W005", "security.W021"]
# Addresses or networks of proxies. Only what they say of a visitor's address and of TLS is
# believed (jobs/pages/proxy.py).
PROXIES = [ipaddress.ip_network(name) for name in env.list("UNDERTRIM_PROXIES", default=[])]
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if SECURE else None
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"

# The workshop's own mail server; without one nothing is sent, and every text can be copied.
MAIL_HOST = env.str("UNDERTRIM_MAIL_HOST", default="")
MAIL_PORT = env.int("UNDERTRIM_MAIL_PORT", default=587)
MAIL_USER = env.str("UNDERTRIM_MAIL_USER", default="")
MAIL_PASSWORD = env.str("UNDERTRIM_MAIL_PASSWORD", default="")
MAIL_FROM = env.str("UNDERTRIM_MAIL_FROM", default=MAIL_USER)
# "starttls" (RFC 3207), "tls" from the first byte on (RFC 8314), or "none" within the house.
MAIL_TLS = env.str("UNDERTRIM_MAIL_TLS", default="starttls")
if MAIL_TLS not in ("starttls", "tls", "none"):
    message = "UNDERTRIM_MAIL_TLS is starttls, tls or none."
    raise ValueError(message)

INSTALLED_APPS = [
    "jobs",  # first, because its commands replace Django's
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django_htmx",
    "simple_history",
    "axes",
    "django_otp",
    "django_otp.plugins.otp_totp",
    "django_otp.plugins.otp_static",
]

MIDDLEWARE = [
    "jobs.pages.middleware.roomy",
    "jobs.pages.proxy.believed",
    "jobs.pages.middleware.guarded",
    "jobs.pages.public.host.public_only",
    "jobs.pages.health.probed",
    "jobs.logs.logged",
    "jobs.pages.middleware.readable",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    # Drawings are long and repeat themselves: a page weighs a fifth on a workshop's Wi-Fi.
    "django.middleware.gzip.GZipMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "simple_history.middleware.HistoryRequestMiddleware",
    "jobs.pages.middleware.workshop",
    "jobs.pages.signed_in.signed_in",
    "axes.middleware.AxesMiddleware",
]

ROOT_URLCONF = "config.urls"
WSGI_APPLICATION = "config.wsgi.application"
FORM_RENDERER = "jobs.pages.forms.renderer.Renderer"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": False,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.template.context_processors.i18n",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "jobs.pages.middleware.workshop_context",
            ],
            "loaders": [
                (
                    "django.template.loaders.cached.Loader",
                    ["django.template.loaders.filesystem.Loader"],
                )
            ]
            if not DEBUG
            else ["django.template.loaders.filesystem.Loader"],
        },
    }
]

DATABASES = {
    "default": env.db("DATABASE_URL", default=f"sqlite:///{VAR_DIR / 'undertrim.sqlite3'}")
}
# Opened anew for each key somebody types, a connection costs an eighth of the answer.
DATABASES["default"] |= {"CONN_MAX_AGE": 60, "CONN_HEALTH_CHECKS": True}
if DATABASES["default"]["ENGINE"].endswith("postgresql"):
    # A machine that is gone says nothing: nobody waits longer for it than this (seconds).
    DATABASES["default"].setdefault("OPTIONS", {}).setdefault("connect_timeout", 5)
    # Nor for whoever writes the same: as long as SQLite waits below. And no question here is so
    # long that compiling it pays: a row of equipment with its part took 38 ms instead of two.
    DATABASES["default"]["OPTIONS"].setdefault("options", "-c lock_timeout=20s -c jit=off")
if DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    if DATABASES["default"]["NAME"] != ":memory:":
        # What SQLite writes beside it takes its mode from it.
        Path(DATABASES["default"]["NAME"]).touch(mode=0o600)
        Path(DATABASES["default"]["NAME"]).chmod(0o600)
    # Several phones and a desk write at once: readers never wait (WAL), a writer waits its turn.
    # What was answered as saved is on the disk (FULL), also after a power cut.
    DATABASES["default"]["OPTIONS"] = {
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;",
    }
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "jobs.User"
AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator"},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
AXES_FAILURE_LIMIT = 10
AXES_COOLOFF_TIME = 0.25  # hours
# By name and address together: whoever guesses keeps out nobody but themselves.
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
# A guess made meanwhile does not make it longer, or one every quarter of an hour kept a door shut.
AXES_RESET_COOL_OFF_ON_FAILURE_DURING_LOCKOUT = False
AXES_RESET_ON_SUCCESS = True
AXES_LOCKOUT_CALLABLE = "jobs.pages.workshop.sign_in.locked_out"
# Who signed in from where is kept while they are signed in (jobs/sessions.py), not for ever.
AXES_DISABLE_ACCESS_LOG = True
AXES_VERBOSE = False
SESSION_ENGINE = "jobs.sessions"
OTP_TOTP_ISSUER = "Undertrim"
LOGIN_URL = "login"
LOGIN_REDIRECT_URL = "board"
LOGOUT_REDIRECT_URL = "login"

LANGUAGE_CODE = "en"
LANGUAGES = [("en", _("English")), ("de", _("German"))]
LOCALE_PATHS = [BASE_DIR / "jobs" / "locale"]
FORMAT_MODULE_PATH = ["config.formats"]
USE_I18N = True
USE_TZ = True
TIME_ZONE = env.str("UNDERTRIM_TIME_ZONE", default="UTC")

STATIC_URL = "/static/"
STATIC_ROOT = VAR_DIR / "static"
STATIC_ROOT.mkdir(exist_ok=True)
MEDIA_URL = "/media/"
MEDIA_ROOT = VAR_DIR / "media"
# Photos lie beside the database and issued sheets in it, or both in a bucket that several machines
# share (S3 and its like).
BUCKET = env.str("UNDERTRIM_S3_BUCKET", default="")
IN_A_BUCKET: dict[str, Any] = {
    "BACKEND": "storages.backends.s3.S3Storage",
    "OPTIONS": {
        "bucket_name": BUCKET,
        "endpoint_url": env.str("UNDERTRIM_S3_ENDPOINT", default="") or None,
        "region_name": env.str("UNDERTRIM_S3_REGION", default="") or None,
        "access_key": env.str("UNDERTRIM_S3_KEY", default="") or None,
        "secret_key": env.str("UNDERTRIM_S3_SECRET", default="") or None,
        # No file takes the place of another, and none is open to whoever knows its name.
        "file_overwrite": False,
        "default_acl": None,
    },
}
if BUCKET:
    from botocore.config import Config  # of half a second, which only a bucket is worth

    # A bucket that is gone says nothing: nobody waits longer for it (seconds).
    IN_A_BUCKET["OPTIONS"]["client_config"] = Config(
        connect_timeout=5, read_timeout=20, retries={"total_max_attempts": 2}
    )
BESIDE = {"BACKEND": "config.kept.Beside"}
STORAGES = {
    "default": IN_A_BUCKET if BUCKET else BESIDE,
    # Each file under a name with its hash, so that a browser keeps it for good; the server gathers
    # them when it starts (config/server.py).
    "staticfiles": {"BACKEND": "config.static.HashedFiles"},
}
# A curve of ten million characters pasted by mistake is answered beside its field, not cut off.
DATA_UPLOAD_MAX_MEMORY_SIZE = 24 * 1024 * 1024
FILE_UPLOAD_MAX_MEMORY_SIZE = 5 * 1024 * 1024
FILE_UPLOAD_PERMISSIONS, FILE_UPLOAD_DIRECTORY_PERMISSIONS = 0o600, 0o700

# Of several machines behind one address, one or more print: this one does not where it is off.
PRINTS = env.bool("UNDERTRIM_PRINTS", default=True)
# A process beside the server prints (config/server.py); tests print within the request.
PRINT_IN_REQUEST = False

MESSAGE_STORAGE = "django.contrib.messages.storage.session.SessionStorage"
# One JSON line for each thing that went wrong, on stderr; with UNDERTRIM_LOG_REQUESTS one for each
# answer too. Nothing in them is about a person but the key of who asked (jobs/logs.py).
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"lines": {"()": "jobs.logs.JsonLines"}},
    "handlers": {
        "console": {"class": "logging.StreamHandler", "formatter": None if DEBUG else "lines"}
    },
    "root": {"handlers": ["console"], "level": env.str("UNDERTRIM_LOG_LEVEL", default="WARNING")},
    "loggers": {
        "jobs.logs": {
            "level": "INFO" if env.bool("UNDERTRIM_LOG_REQUESTS", default=False) else "CRITICAL"
        },
        # It would say who could not sign in, and from where; the database knows for as long as
        # it counts.
        "axes": {"level": "ERROR"},
    },
}

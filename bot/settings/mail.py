"""What the owner sets for e-mail."""

from pydantic import Field, SecretStr

from bot.settings.validators import Listen, MailSecurity, Port, SubjectSettings


class MailSettings(SubjectSettings):
    """``YARDBELL_MAIL_...``: the mail servers that send and that hand answers in."""

    host: str | None = None
    """The mail server that sends; without it e-mail is off."""
    port: Port = 587
    security: MailSecurity = "starttls"
    login: str = ""
    password: SecretStr | None = None
    sender: str | None = Field(default=None, validation_alias="from")
    """Our address."""
    key: SecretStr | None = None
    """Sixteen or more random letters, by which answers are known."""
    listen: Listen | None = None
    """Where the mail server hands answers in over LMTP, as HOST:PORT."""

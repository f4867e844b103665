"""Shops, users and settings in the tables."""

from dataclasses import asdict

from sqlalchemy import and_, select

from laydown.store.kept import Setting, Shop, User
from laydown.store.pages import Pages
from laydown.store.sound import check_sound
from laydown.store.tables import SETTINGS, SHOPS, USERS

_USERS = select(USERS.c.name, USERS.c.role, USERS.c.password_hash).order_by(USERS.c.name)


class SqlShops(Pages):
    """The shops of a book, the people of one shop and its settings."""

    def put_shop(self, shop: Shop) -> None:
        """Keep a shop, or its new name."""
        check_sound(self._rows.place, [shop])
        self._rows.put(SHOPS, asdict(shop))

    def shops(self) -> tuple[Shop, ...]:
        """Return all shops by id."""
        return self._rows.read(select(SHOPS).order_by(SHOPS.c.id), Shop)

    def put_user(self, user: User) -> None:
        """Keep a user of this shop, or their new role and password."""
        self._put(USERS, user)

    def user(self, name: str) -> User | None:
        """Return the user of this shop with a name."""
        return self._rows.one(_USERS.where(and_(self._own(USERS), USERS.c.name == name)), User)

    def users(self) -> tuple[User, ...]:
        """Return the users of this shop by name."""
        return self._rows.read(_USERS.where(self._own(USERS)), User)

    def put_setting(self, key: str, text: str) -> None:
        """Keep a setting of this shop."""
        self._put(SETTINGS, Setting(key, text))

    def settings(self) -> dict[str, str]:
        """Return the settings of this shop."""
        columns = select(SETTINGS.c.key, SETTINGS.c.text).where(self._own(SETTINGS))
        return {one.key: one.text for one in self._rows.read(columns.order_by(SETTINGS.c.key), Setting)}

"""Jobs, plans, products and sides in the tables."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import ColumnElement, Table, and_, delete, exists, select

from laydown.schema.message import Name, message
from laydown.store.kept import NO_FILES, Kept, KeptFile, KeptPlan, Share
from laydown.store.shops import Pages
from laydown.store.tables import FILES, JOB_FILES, JOB_SHARES, JOBS, JOBS_AWAY, PLANS, PRODUCTS, SIDES
from laydown.store.transactions import check_sound


@dataclass(frozen=True, slots=True)
class _Content:
    """A row with nothing but a content."""

    content: bytes


class SqlPapers(Pages):
    """Jobs with their files and plans, products and sides."""

    def put_job(self, job: Kept, files: Mapping[str, bytes] = NO_FILES, seen: int | None = None) -> None:
        """Keep a job and, by name, all files that lie beside it; one with the same id is replaced with its files."""
        named = {name: KeptFile(name, hashlib.sha256(content).hexdigest()) for name, content in files.items()}
        check_sound(self._rows.place, [job, *named.values()])
        contents = {named[name].digest: content for name, content in files.items()}
        of_job = {"shop_id": self._shop_id, "job_id": job.id}
        with self._rows.writing(self._shop_row()) as connection:
            self._save(connection, JOBS, job, seen)
            # In the order of their digests, so that two writers of the same contents never wait for each other.
            for digest, content in sorted(contents.items()):
                row = {"shop_id": self._shop_id, "digest": digest, "content": content}
                # One that is there is touched, so that nobody deletes it as unused meanwhile.
                touched = {"digest": digest}
                statement = self._rows.insert(FILES).values(**row)
                connection.execute(
                    statement.on_conflict_do_update(index_elements=["shop_id", "digest"], set_=touched)
                )
            connection.execute(
                delete(JOB_FILES).where(and_(self._own(JOB_FILES), JOB_FILES.c.job_id == job.id))
            )
            for one in named.values():
                connection.execute(
                    self._rows.insert(JOB_FILES).values(**of_job, name=one.name, digest=one.digest)
                )

    def job_files(self, job_id: str, shop_id: str = "") -> tuple[KeptFile, ...]:
        """Return what lies beside a job, by name; the job as in `job`."""
        query = select(JOB_FILES.c.name, JOB_FILES.c.digest).where(self._beside(job_id, shop_id))
        return self._rows.read(query.order_by(JOB_FILES.c.name), KeptFile)

    def job_file(self, job_id: str, name: str, shop_id: str = "") -> bytes | None:
        """Return the content of a file beside a job; the job as in `job`."""
        same = and_(FILES.c.shop_id == JOB_FILES.c.shop_id, FILES.c.digest == JOB_FILES.c.digest)
        query = select(FILES.c.content).join(JOB_FILES, same).where(self._beside(job_id, shop_id))
        found = self._rows.one(query.where(JOB_FILES.c.name == name), _Content)
        return found.content if found is not None else None

    def _beside(self, job_id: str, shop_id: str) -> ColumnElement[bool]:
        """Files beside a job that this shop may read."""
        whose = JOB_FILES.c.shop_id == (shop_id or self.shop_id)
        return and_(JOB_FILES.c.job_id == job_id, whose, self._seen(JOB_FILES, "job_id"))

    def job(self, job_id: str, shop_id: str = "") -> Kept | None:
        """Return a job of this shop, or one that another shop shares with it."""
        whose = JOBS.c.shop_id == (shop_id or self.shop_id)
        query = select(JOBS).where(and_(JOBS.c.id == job_id, whose, self._seen(JOBS, "id")))
        return self._rows.one(query, Kept)

    def jobs(self) -> tuple[Kept, ...]:
        """Return the jobs of this shop and those shared with it that are not put away, latest first."""
        same = and_(JOBS_AWAY.c.shop_id == JOBS.c.shop_id, JOBS_AWAY.c.job_id == JOBS.c.id)
        query = select(JOBS).where(and_(self._seen(JOBS, "id"), ~exists().where(same)))
        return self._rows.read(query.order_by(JOBS.c.saved_at.desc(), JOBS.c.shop_id, JOBS.c.id), Kept)

    def share_job(self, job_id: str, with_shop_id: str) -> None:
        """Let another shop read a job of this shop and its plans."""
        missing = message(
            "row.shop-or-job", other=Name(with_shop_id), name=Name(job_id), shop=Name(self._shop_id)
        )
        self._put(JOB_SHARES, Share(job_id, with_shop_id), missing)

    def unshare_job(self, job_id: str, with_shop_id: str) -> None:
        """Take back what was shared; harmless if nothing was."""
        check_sound(self._rows.place, [Share(job_id, with_shop_id)])
        shared = and_(self._own(JOB_SHARES), JOB_SHARES.c.job_id == job_id)
        with self._rows.writing() as connection:
            connection.execute(
                delete(JOB_SHARES).where(and_(shared, JOB_SHARES.c.with_shop_id == with_shop_id))
            )

    def put_plan(self, plan: KeptPlan) -> None:
        """Keep a plan of a job of this shop; the same plan again changes nothing, another text is refused."""
        self._put_once(PLANS, plan, self._row_of("job", plan.job_id))

    def plan(self, plan_id: str, shop_id: str = "") -> KeptPlan | None:
        """Return a plan of this shop, or one of a job that another shop shares with it."""
        whose = PLANS.c.shop_id == (shop_id or self.shop_id)
        query = select(PLANS).where(and_(PLANS.c.id == plan_id, whose, self._seen(PLANS, "job_id")))
        return self._rows.one(query, KeptPlan)

    def plans(self, job_id: str, shop_id: str = "") -> tuple[KeptPlan, ...]:
        """Return the plans of a job, latest first; the job as in `job`."""
        whose = PLANS.c.shop_id == (shop_id or self.shop_id)
        query = select(PLANS).where(and_(PLANS.c.job_id == job_id, whose, self._seen(PLANS, "job_id")))
        return self._rows.read(query.order_by(PLANS.c.saved_at.desc(), PLANS.c.id), KeptPlan)

    def put_product(self, product: Kept, seen: int | None = None) -> None:
        """Keep a product; one with the same id is replaced."""
        self._put_paper(PRODUCTS, product, seen)

    def products(self) -> tuple[Kept, ...]:
        """Return the products of this shop by id."""
        return self._by_id(PRODUCTS)

    def put_side(self, side: Kept, seen: int | None = None) -> None:
        """Keep a side; one with the same id is replaced."""
        self._put_paper(SIDES, side, seen)

    def sides(self) -> tuple[Kept, ...]:
        """Return the sides of this shop by id."""
        return self._by_id(SIDES)

    def _put_paper(self, table: Table, paper: Kept, seen: int | None) -> None:
        """Keep a product or side."""
        check_sound(self._rows.place, [paper])
        with self._rows.writing(self._shop_row()) as connection:
            self._save(connection, table, paper, seen)

    def _by_id(self, table: Table) -> tuple[Kept, ...]:
        """All of one kind in this shop."""
        return self._rows.read(select(table).where(self._own(table)).order_by(table.c.id), Kept)

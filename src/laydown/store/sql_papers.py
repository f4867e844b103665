"""Jobs, plans, products and sides in the tables."""

from sqlalchemy import Table, and_, delete, select

from laydown.store.kept import Kept, KeptPlan, Share
from laydown.store.pages import Pages
from laydown.store.sound import check_sound
from laydown.store.tables import JOB_SHARES, JOBS, PLANS, PRODUCTS, SIDES


class SqlPapers(Pages):
    """Jobs with their plans, products and sides."""

    def put_job(self, job: Kept) -> None:
        """Keep a job; one with the same id is replaced."""
        self._put(JOBS, job)

    def job(self, job_id: str, shop_id: str = "") -> Kept | None:
        """Return a job of this shop, or one that another shop shares with it."""
        whose = JOBS.c.shop_id == (shop_id or self.shop_id)
        query = select(JOBS).where(and_(JOBS.c.id == job_id, whose, self._seen(JOBS, "id")))
        return self._rows.one(query, Kept)

    def jobs(self) -> tuple[Kept, ...]:
        """Return the jobs of this shop and those shared with it, latest first."""
        query = select(JOBS).where(self._seen(JOBS, "id"))
        return self._rows.read(query.order_by(JOBS.c.saved_at.desc(), JOBS.c.shop_id, JOBS.c.id), Kept)

    def share_job(self, job_id: str, with_shop_id: str) -> None:
        """Let another shop read a job of this shop and its plans."""
        self._put(JOB_SHARES, Share(job_id, with_shop_id), f"shop {with_shop_id!r} or job {job_id!r}")

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
        self._put_once(PLANS, plan, f"job {plan.job_id!r}")

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

    def put_product(self, product: Kept) -> None:
        """Keep a product; one with the same id is replaced."""
        self._put(PRODUCTS, product)

    def products(self) -> tuple[Kept, ...]:
        """Return the products of this shop by id."""
        return self._by_id(PRODUCTS)

    def put_side(self, side: Kept) -> None:
        """Keep a side; one with the same id is replaced."""
        self._put(SIDES, side)

    def sides(self) -> tuple[Kept, ...]:
        """Return the sides of this shop by id."""
        return self._by_id(SIDES)

    def _by_id(self, table: Table) -> tuple[Kept, ...]:
        """All of one kind in this shop."""
        return self._rows.read(select(table).where(self._own(table)).order_by(table.c.id), Kept)

-- A version that grows with every save, so that nobody overwrites what another saved meanwhile; and jobs that are put away.

ALTER TABLE jobs ADD COLUMN version INTEGER NOT NULL DEFAULT 1;

ALTER TABLE products ADD COLUMN version INTEGER NOT NULL DEFAULT 1;

ALTER TABLE sides ADD COLUMN version INTEGER NOT NULL DEFAULT 1;

CREATE TABLE jobs_away (
    shop_id WORD NOT NULL REFERENCES shops (id),
    job_id WORD NOT NULL,
    put_at WORD NOT NULL,
    put_by WORD NOT NULL,
    PRIMARY KEY (shop_id, job_id),
    FOREIGN KEY (shop_id, job_id) REFERENCES jobs (shop_id, id)
);

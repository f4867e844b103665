-- Files that lie beside a job, such as instrument readings; each content is kept once and never changes.

CREATE TABLE files (
    shop_id WORD NOT NULL REFERENCES shops (id),
    digest WORD NOT NULL,
    content BYTES NOT NULL,
    PRIMARY KEY (shop_id, digest)
);

CREATE TABLE job_files (
    shop_id WORD NOT NULL REFERENCES shops (id),
    job_id WORD NOT NULL,
    name WORD NOT NULL,
    digest WORD NOT NULL,
    PRIMARY KEY (shop_id, job_id, name),
    FOREIGN KEY (shop_id, job_id) REFERENCES jobs (shop_id, id),
    FOREIGN KEY (shop_id, digest) REFERENCES files (shop_id, digest)
);

-- All tables, and the shop that a book begins with. WORD stands for text that sorts by code point.
-- A step never changes once it is out: what comes later is a new file with the next number.

CREATE TABLE book_version (version INTEGER NOT NULL);

CREATE TABLE shops (
    id WORD NOT NULL PRIMARY KEY,
    name WORD NOT NULL
);

CREATE TABLE users (
    shop_id WORD NOT NULL REFERENCES shops (id),
    name WORD NOT NULL,
    role WORD NOT NULL,
    password_hash WORD NOT NULL,
    PRIMARY KEY (shop_id, name),
    CONSTRAINT users_role CHECK (role IN ('painter', 'manager', 'reader'))
);

CREATE TABLE settings (
    shop_id WORD NOT NULL REFERENCES shops (id),
    key WORD NOT NULL,
    text WORD NOT NULL,
    PRIMARY KEY (shop_id, key)
);

CREATE TABLE jobs (
    shop_id WORD NOT NULL REFERENCES shops (id),
    id WORD NOT NULL,
    name WORD NOT NULL,
    format WORD NOT NULL,
    saved_at WORD NOT NULL,
    text WORD NOT NULL,
    PRIMARY KEY (shop_id, id)
);

CREATE TABLE products (
    shop_id WORD NOT NULL REFERENCES shops (id),
    id WORD NOT NULL,
    name WORD NOT NULL,
    format WORD NOT NULL,
    saved_at WORD NOT NULL,
    text WORD NOT NULL,
    PRIMARY KEY (shop_id, id)
);

CREATE TABLE sides (
    shop_id WORD NOT NULL REFERENCES shops (id),
    id WORD NOT NULL,
    name WORD NOT NULL,
    format WORD NOT NULL,
    saved_at WORD NOT NULL,
    text WORD NOT NULL,
    PRIMARY KEY (shop_id, id)
);

CREATE TABLE job_shares (
    shop_id WORD NOT NULL REFERENCES shops (id),
    job_id WORD NOT NULL,
    with_shop_id WORD NOT NULL REFERENCES shops (id),
    PRIMARY KEY (shop_id, job_id, with_shop_id),
    FOREIGN KEY (shop_id, job_id) REFERENCES jobs (shop_id, id)
);

CREATE INDEX job_shares_with ON job_shares (with_shop_id);

CREATE TABLE plans (
    shop_id WORD NOT NULL REFERENCES shops (id),
    id WORD NOT NULL,
    job_id WORD NOT NULL,
    format WORD NOT NULL,
    saved_at WORD NOT NULL,
    text WORD NOT NULL,
    PRIMARY KEY (shop_id, id),
    FOREIGN KEY (shop_id, job_id) REFERENCES jobs (shop_id, id)
);

CREATE INDEX plans_of_job ON plans (shop_id, job_id);

CREATE TABLE sessions (
    shop_id WORD NOT NULL REFERENCES shops (id),
    id WORD NOT NULL,
    plan_id WORD NOT NULL,
    painter WORD NOT NULL,
    format WORD NOT NULL,
    saved_at WORD NOT NULL,
    text WORD NOT NULL,
    PRIMARY KEY (shop_id, id),
    FOREIGN KEY (shop_id, plan_id) REFERENCES plans (shop_id, id)
);

CREATE INDEX sessions_of_plan ON sessions (shop_id, plan_id);

CREATE TABLE events (
    shop_id WORD NOT NULL REFERENCES shops (id),
    session_id WORD NOT NULL,
    number INTEGER NOT NULL,
    tap_id WORD NOT NULL,
    made_at WORD NOT NULL,
    received_at WORD NOT NULL,
    text WORD NOT NULL,
    PRIMARY KEY (shop_id, session_id, number),
    CONSTRAINT events_tap UNIQUE (shop_id, session_id, tap_id),
    FOREIGN KEY (shop_id, session_id) REFERENCES sessions (shop_id, id)
);

CREATE TABLE records (
    shop_id WORD NOT NULL REFERENCES shops (id),
    id WORD NOT NULL,
    session_id WORD,
    painter WORD NOT NULL,
    format WORD NOT NULL,
    saved_at WORD NOT NULL,
    text WORD NOT NULL,
    PRIMARY KEY (shop_id, id),
    FOREIGN KEY (shop_id, session_id) REFERENCES sessions (shop_id, id)
);

INSERT INTO shops (id, name) VALUES ('own', '');

INSERT INTO book_version (version) VALUES (0);

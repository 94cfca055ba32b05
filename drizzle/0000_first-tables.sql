CREATE TABLE `answer` (
	`command_id` text PRIMARY KEY NOT NULL,
	`person_id` text NOT NULL,
	`body_hash` text NOT NULL,
	`answered_at` integer NOT NULL,
	`answer` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `credential` (
	`person_id` text PRIMARY KEY NOT NULL,
	`pin_hash` text NOT NULL,
	`set_at` integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE `device` (
	`id` text PRIMARY KEY NOT NULL,
	`secret_hash` text NOT NULL,
	`first_seen_at` integer NOT NULL,
	`last_seen_at` integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE `event` (
	`seq` integer PRIMARY KEY NOT NULL,
	`stream` text NOT NULL,
	`version` integer NOT NULL,
	`body` text NOT NULL,
	`hash` text NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `event_stream_version` ON `event` (`stream`,`version`);--> statement-breakpoint
CREATE TABLE `reading` (
	`job_id` text NOT NULL,
	`reading_id` text NOT NULL,
	`joint_id` text NOT NULL,
	`position` integer NOT NULL,
	`pass` integer NOT NULL,
	`how` text NOT NULL,
	`wrench_id` text,
	`torque_nm` real,
	`angle_deg` real,
	`flags` text NOT NULL,
	`by_person` text NOT NULL,
	`done_at` integer NOT NULL,
	`standing` integer NOT NULL,
	PRIMARY KEY(`job_id`, `reading_id`)
);
--> statement-breakpoint
CREATE INDEX `reading_wrench_done` ON `reading` (`wrench_id`,`done_at`);--> statement-breakpoint
CREATE INDEX `reading_done` ON `reading` (`done_at`);--> statement-breakpoint
CREATE TABLE `sign_in` (
	`id` text PRIMARY KEY NOT NULL,
	`device_id` text NOT NULL,
	`person_id` text NOT NULL,
	`opened_at` integer NOT NULL,
	`closed_at` integer,
	FOREIGN KEY (`device_id`) REFERENCES `device`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `sign_in_device` ON `sign_in` (`device_id`);--> statement-breakpoint
CREATE TABLE `stream_head` (
	`stream` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`hash` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `summary` (
	`job_id` text PRIMARY KEY NOT NULL,
	`number` text NOT NULL,
	`version` integer NOT NULL,
	`summary` text NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `summary_number` ON `summary` (`number`);